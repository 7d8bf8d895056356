from tests.find.boards import field, played, suspect, until_due
from tests.samples.reading import ORCHARD
from thruline.app.locate import begin, with_symptoms
from thruline.app.search_told import MOST_LEFT, MOST_NEXT, rig_in_three, told_of, told_paper
from thruline.find.field import field_of
from thruline.find.kinds import Kind
from thruline.find.search import Did, Search, Step, Verdict
from thruline.find.standing import stand
from thruline.proof.case import Case
from thruline.wiring import open_file


def test_the_rig_in_three_sentences():
    told = list(rig_in_three(field(), "on a stage"))
    assert len(told) == 3
    assert told[0].endswith("2 presets.")
    names = [field().meant.rig.units[one].name for one in ("feet", "box-1", "box-2", "box-3")]
    assert " → ".join(names) in told[1]
    assert "on a stage" in told[2]


def test_every_lead_of_a_branching_board_is_told_once():
    here = field_of(Case(open_file(ORCHARD).rig))
    runs = list(rig_in_three(here, ""))[1]
    links = {
        (one.start.unit, one.stop.unit)
        for one in here.meant.case.board.network.links
        if one.carries is not False
    }
    assert runs.count(" → ") == len(links)


def test_what_was_complained_of_is_told_in_the_words_of_who_did():
    search = with_symptoms(field(), begin(), ["box-2  does nothing"])
    told = told_of(stand(field(), search))
    assert told.said == ("box-2 does nothing",)
    assert told.tried[0].answer == "nothing happens"
    assert told.tried[0].ruled_out
    assert 1 <= len(told.left) <= MOST_LEFT + 3
    assert 1 <= len(told.after) <= MOST_NEXT


def test_what_is_asked_next_is_what_the_search_asks():
    standing = stand(field(), Search())
    assert told_of(standing).after[0].asks == standing.check.asks


def test_a_mend_that_is_due_comes_first_with_what_confirms_it():
    standing = until_due(suspect(Kind.CHANNEL_ABOVE, "box-2"), Search())
    told = told_of(standing)
    assert told.after[0].asks == standing.mend.mend
    assert len(told.after) > 1


def test_a_board_that_works_has_nothing_left_to_try():
    standing = stand(field(), played(suspect(Kind.CHANNEL_ABOVE, "box-2")))
    assert standing.verdict is Verdict.WORKS
    told = told_of(standing)
    assert told.after == ()
    assert any(one.asks == "mended" for one in told.tried)


def test_what_nobody_was_sure_of_is_told_as_that():
    check = stand(field(), Search()).check
    search = Search(steps=(Step(Did.NOT_SURE, check.id), Step(Did.CANNOT, "look box-2 1")))
    told = told_of(stand(field(), search))
    assert [one.answer for one in told.tried] == ["not sure", "cannot be done here"]
    assert told.tried[1].takes == ""
    assert told_paper(stand(field(), search)).title.startswith(field().meant.rig.name)
