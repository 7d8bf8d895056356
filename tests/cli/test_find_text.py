from dataclasses import replace

from tests.find.boards import field, played, suspect
from thruline.app.locate import Search, Standing, stand
from thruline.cli.find_text import check_rows, mend_rows, standing_rows, suspect_rows
from thruline.find.kinds import Kind

SEARCH = played(suspect(Kind.POWER_VOLTAGE, "box-2"))


def _at(count: int) -> Standing:
    return stand(field(), Search(steps=SEARCH.steps[:count]))


def test_a_glance_lists_the_units_by_number():
    rows = list(check_rows(field(), field().check("glance 1")))
    assert rows[0].startswith("Press preset 1")
    assert rows[2] == "  2  Orchard Bramley (box-2)"


def test_a_check_that_can_hurt_shows_its_caution():
    rows = list(check_rows(field(), field().check("supply box-1")))
    assert any("never open a mains supply" in row for row in rows)


def test_every_state_of_a_search_has_its_rows():
    mended = next(n for n, step in enumerate(SEARCH.steps) if step.did == "mended")
    assert any("n not sure" in row for row in standing_rows(_at(0)))
    assert any("ruled out" in row for row in standing_rows(_at(mended)))
    assert any(row.startswith("mend: move") for row in mend_rows(_at(mended)))
    assert list(mend_rows(_at(0))) == []
    assert any("it works" in row for row in standing_rows(_at(len(SEARCH.steps))))


def test_suspects_stand_with_the_likeliest_first():
    shares = [row.strip().split(" %")[0] for row in suspect_rows(_at(1))]
    assert shares == sorted(shares, key=lambda one: -int(one.split()[-1]))


def test_trying_again_is_among_the_letters_only_when_an_answer_is_doubted():
    sure = _at(1)
    doubted = replace(sure, doubtful=0)
    assert not any("r try that again" in row for row in standing_rows(sure))
    assert any(row.startswith("  r try that again   n not sure") for row in standing_rows(doubted))
