"""Charts beside a rig: copied, made, filled in, undone; the rig is proved with them at once."""

import pytest

from thruline.app.chart_desk import (
    chart_as_before,
    chart_copied,
    chart_edited,
    chart_made,
    chart_moved,
    chart_named,
    chart_restored,
    chart_taken_away,
    charts_caught_up,
)
from thruline.app.clash import Clashing
from thruline.app.desk import caught_up, open_desk
from thruline.app.desk_answer import desk_json
from thruline.app.fact_view import typed_edit
from thruline.base.address import read_address
from thruline.base.edit import remove
from thruline.base.errors import CannotUse
from thruline.desk_wiring import keeping_for
from thruline.document.chart_shape import ChartShape
from thruline.outside.samples import ORCHARD_STREET, sample_text

DELAY = "bramley-delay"


@pytest.fixture
def keeping(tmp_path, monkeypatch):
    monkeypatch.setenv("THRULINE_WORKSHOP", str(tmp_path / "workshop"))
    monkeypatch.delenv("THRULINE_STORE", raising=False)
    file = tmp_path / "good.rig.toml"
    file.write_text(sample_text(ORCHARD_STREET), encoding="utf-8")
    return keeping_for(file)


@pytest.fixture
def copied(keeping):
    """The desk with a copy of the delay's chart beside the rig."""
    return chart_copied(open_desk(keeping), keeping, DELAY, new=DELAY)


@pytest.fixture
def file(keeping, copied):
    return keeping.charts.kept(DELAY)[0]


def _typed(address, text):
    return lambda _data: typed_edit(ChartShape, address, text)


def _settle(desk):
    return desk.state.opened.charts[DELAY].settle


def _break(file, instead):
    """Something else writes into the file what cannot be used."""
    file.write(instead, expected=file.read())


def test_an_edit_of_a_copy_reaches_the_rig_and_is_undone_and_redone(keeping, copied, file):
    before = file.read()
    desk = chart_edited(copied, keeping, DELAY, make=_typed("settle.ms", "777"))
    assert _settle(desk).load_us == 777_000
    assert desk.state.proof is not copied.state.proof
    assert file.read().count(b"#") == before.count(b"#")
    desk = chart_moved(desk, keeping, DELAY, is_back=True)
    assert file.read() == before
    assert _settle(desk) == _settle(copied)
    with pytest.raises(CannotUse, match="nothing to undo"):
        chart_moved(desk, keeping, DELAY, is_back=True)
    desk = chart_moved(desk, keeping, DELAY, is_back=False)
    assert _settle(desk).load_us == 777_000
    assert open_desk(keeping).state.proof.findings == desk.state.proof.findings


def test_what_is_shipped_is_only_read(keeping):
    desk = open_desk(keeping)
    with pytest.raises(CannotUse, match="only read here"):
        chart_edited(desk, keeping, DELAY, make=_typed("settle.ms", "777"))
    with pytest.raises(CannotUse, match="only read here"):
        chart_moved(desk, keeping, DELAY, is_back=True)
    assert keeping.charts.ids() == ()


@pytest.mark.parametrize("gone", ["chart.maker", "socket[midi-in]"])
def test_what_would_break_a_chart_is_refused(keeping, copied, file, gone):
    before = file.read()
    with pytest.raises(CannotUse):
        chart_edited(copied, keeping, DELAY, make=lambda _data: remove(read_address(gone)))
    with pytest.raises(CannotUse, match="copy it under another id"):
        chart_edited(copied, keeping, DELAY, make=_typed("chart.id", "other"))
    assert file.read() == before


def test_nothing_is_written_when_the_rig_cannot_be_proved_with_it(
    keeping, copied, file, monkeypatch
):
    def refuse(*_given, **_named):
        raise CannotUse("another chart of the rig cannot be used")

    before = file.read()
    monkeypatch.setattr("thruline.app.chart_desk.open_rig", refuse)
    with pytest.raises(CannotUse, match="another chart"):
        chart_edited(copied, keeping, DELAY, make=_typed("settle.ms", "777"))
    assert file.read() == before
    assert keeping.charts.kept(DELAY)[1].recall() is None


def test_an_edit_that_says_what_stands_there_is_no_step(keeping, copied, file):
    same = chart_edited(
        copied, keeping, DELAY, make=_typed("settle.ms", str(_settle(copied).load_us // 1000))
    )
    assert same is copied
    assert keeping.charts.kept(DELAY)[1].recall() is None


def test_a_copy_that_says_the_same_is_not_proved_again(keeping, copied):
    desk = open_desk(keeping)
    assert copied.state.opened.sheets[DELAY].file == keeping.charts.kept(DELAY)[0].says
    assert copied.state.proof.findings == desk.state.proof.findings
    noted = chart_edited(copied, keeping, DELAY, make=_typed("chart.about", "The blue one"))
    assert noted is not copied
    assert b"The blue one" in noted.state.opened.sheets[DELAY].content


def test_a_copy_under_another_id_leaves_the_rig_as_it_is(keeping):
    desk = open_desk(keeping)
    after = chart_copied(desk, keeping, DELAY, new="bramley-delay-2")
    assert after is not desk
    assert after.state is desk.state
    assert b'id = "bramley-delay-2"' in keeping.charts.kept("bramley-delay-2")[0].read()
    with pytest.raises(CannotUse, match="already"):
        chart_copied(after, keeping, DELAY, new="bramley-delay-2")
    with pytest.raises(CannotUse, match="no chart"):
        chart_copied(after, keeping, "quince-box", new="quince-box")


def test_no_chart_is_laid_in_the_way_of_another_one(keeping):
    desk = open_desk(keeping)
    with pytest.raises(CannotUse, match='"pippin-reverb" already, in the packaged samples'):
        chart_copied(desk, keeping, DELAY, new="pippin-reverb")
    head = {"maker": "Quince", "model": "Box", "kind": "fuzz"}
    with pytest.raises(CannotUse, match="another one; give another id"):
        chart_made(desk, keeping, DELAY, head=head)
    assert keeping.charts.ids() == ()


def test_a_copy_that_is_taken_away_leaves_what_it_was_copied_from(keeping, copied):
    edited = chart_edited(copied, keeping, DELAY, make=_typed("settle.ms", "777"))
    after = chart_taken_away(edited, keeping, DELAY)
    assert keeping.charts.ids() == ()
    assert _settle(after) == _settle(open_desk(keeping)) == _settle(copied)
    assert after.state.proof.findings == copied.state.proof.findings
    with pytest.raises(CannotUse, match="only read here"):
        chart_taken_away(after, keeping, DELAY)


def test_the_only_chart_of_a_unit_is_not_taken_away(keeping):
    head = {"maker": "Quince", "model": "Box", "kind": "fuzz"}
    desk = chart_made(open_desk(keeping), keeping, "quince-box", head=head)
    keeping.file.write(
        keeping.file.read().decode().replace(f'chart = "{DELAY}"', 'chart = "quince-box"'),
        expected=keeping.file.read(),
    )
    with pytest.raises(CannotUse, match=r"good\.rig\.toml may use it"):
        chart_taken_away(desk, keeping, "quince-box")
    assert keeping.charts.ids() == ("quince-box",)


def test_a_chart_that_something_else_breaks_is_told_and_stays_as_it_was(keeping, copied, file):
    content = file.read()
    _break(file, "broken [[")
    told = charts_caught_up(copied, keeping)
    assert told.state is copied.state
    assert "chart.toml:1" in told.charts_lost[DELAY]
    assert charts_caught_up(told, keeping) is told
    _break(file, content.decode())
    assert charts_caught_up(told, keeping).charts_lost == {}


def test_a_chart_whose_file_goes_is_looked_for_elsewhere(keeping, copied):
    edited = chart_edited(copied, keeping, DELAY, make=_typed("settle.ms", "777"))
    keeping.charts.take_away(DELAY)
    after = charts_caught_up(edited, keeping)
    assert _settle(after) == _settle(copied)
    assert after.charts_lost == {}
    assert charts_caught_up(after, keeping) is after


def test_a_chart_that_is_nowhere_any_more_is_told(keeping):
    text = keeping.file.read().decode().replace(f'chart = "{DELAY}"', 'chart = "bramley-delay-2"')
    desk = chart_copied(open_desk(keeping), keeping, DELAY, new="bramley-delay-2")
    keeping.file.write(text, expected=keeping.file.read())
    desk = caught_up(desk, keeping)
    keeping.charts.take_away("bramley-delay-2")
    told = charts_caught_up(desk, keeping)
    assert told.charts_lost == {"bramley-delay-2": "its file is gone, and it stands nowhere else"}
    assert desk_json(told)["charts_lost"][0].startswith('The chart "bramley-delay-2" beside')


def test_a_chart_is_made_of_what_is_known_at_first(keeping):
    head = {"maker": "Quince", "model": "Box", "kind": "fuzz"}
    desk = chart_made(open_desk(keeping), keeping, "quince-box", head=head)
    assert keeping.charts.ids() == ("quince-box",)
    with pytest.raises(CannotUse, match="already"):
        chart_made(desk, keeping, "quince-box", head=head)


def test_what_was_changed_outside_is_a_step_of_its_own(keeping, copied, file):
    desk = chart_edited(copied, keeping, DELAY, make=_typed("settle.ms", "777"))
    outside = file.read().decode() + "# looked at again\n"
    _break(file, outside)
    desk = chart_edited(desk, keeping, DELAY, make=_typed("settle.ms", "778"))
    desk = chart_moved(desk, keeping, DELAY, is_back=True)
    assert file.read().decode() == outside
    assert _settle(desk).load_us == 777_000


@pytest.mark.parametrize("broken", ["[chart\n", 'format = 1\n[chart]\nid = "bramley-delay"\n'])
def test_undoing_puts_back_what_stood_before_something_else_broke_it(keeping, copied, file, broken):
    desk = chart_edited(copied, keeping, DELAY, make=_typed("settle.ms", "777"))
    good = file.read()
    _break(file, broken)
    with pytest.raises(CannotUse):
        chart_edited(desk, keeping, DELAY, make=_typed("settle.ms", "778"))
    desk = chart_moved(desk, keeping, DELAY, is_back=True)
    assert file.read() == good
    assert broken in [keeping.charts.kept(DELAY)[1].text(number) for number in (1, 2, 3)]
    desk = chart_moved(desk, keeping, DELAY, is_back=True)
    assert _settle(desk) == _settle(copied)


def test_the_later_of_two_at_one_fact_is_told(keeping, copied, file):
    desk = chart_edited(copied, keeping, DELAY, make=_typed("settle.ms", "777"), seen=1)
    before = file.read()
    with pytest.raises(Clashing, match="was changed meanwhile, to 777") as told:
        chart_edited(desk, keeping, DELAY, make=_typed("settle.ms", "500"), seen=1)
    assert (told.value.clashes[0].now, told.value.clashes[0].wanted) == (777, 500)
    assert file.read() == before
    desk = chart_edited(desk, keeping, DELAY, make=_typed("chart.about", "Mine."), seen=1)
    desk = chart_edited(desk, keeping, DELAY, make=_typed("settle.ms", "500"), seen=3)
    assert _settle(desk).load_us == 500_000


def test_an_edit_on_what_was_changed_outside_meanwhile_is_told_too(keeping, copied, file):
    desk = chart_edited(copied, keeping, DELAY, make=_typed("settle.ms", "777"), seen=1)
    file.write(file.read().decode().replace("777", "888"), expected=file.read())
    with pytest.raises(Clashing, match="to 888"):
        chart_edited(desk, keeping, DELAY, make=_typed("settle.ms", "500"), seen=2)


def test_another_rig_that_uses_the_chart_notices_its_change(keeping, copied, file, tmp_path):
    other = tmp_path / "other.rig.toml"
    other.write_text(sample_text(ORCHARD_STREET), encoding="utf-8")
    beside = keeping_for(other)
    desk = open_desk(beside)
    assert charts_caught_up(desk, beside) is desk
    chart_edited(copied, keeping, DELAY, make=_typed("settle.ms", "777"))
    seen = charts_caught_up(desk, beside)
    assert _settle(seen).load_us == 777_000
    assert charts_caught_up(seen, beside) is seen
    _break(file, "format = 1\n[chart]\n")
    assert charts_caught_up(seen, beside).state is seen.state


def test_an_earlier_state_is_restored_as_a_step_that_can_be_undone(keeping, copied, file):
    before, settle = file.read(), _settle(copied)
    desk = chart_edited(copied, keeping, DELAY, make=_typed("settle.ms", "777"))
    assert _settle(chart_as_before(desk, keeping, DELAY, number=1)) == settle
    back = chart_restored(desk, keeping, DELAY, number=1)
    assert file.read() == before
    assert _settle(back) == settle
    assert chart_restored(back, keeping, DELAY, number=1) is back
    again = chart_moved(back, keeping, DELAY, is_back=True)
    assert _settle(again) == _settle(desk)
    said = [one.says for one in keeping.charts.kept(DELAY)[1].listed()]
    assert said[0] == "Restored revision 1"
    with pytest.raises(CannotUse, match="no revision 99"):
        chart_restored(back, keeping, DELAY, number=99)
    with pytest.raises(CannotUse, match="only read here"):
        chart_restored(back, keeping, "pippin-reverb", number=1)


def test_a_state_is_called_something(keeping, copied):
    chart_edited(copied, keeping, DELAY, make=_typed("settle.ms", "777"))
    chart_named(keeping, DELAY, 1, name="  as the manual  says ")
    assert keeping.charts.kept(DELAY)[1].listed()[-1].name == "as the manual says"
    with pytest.raises(CannotUse, match="at most 80 letters"):
        chart_named(keeping, DELAY, 1, name="x" * 81)
