import pytest

from tests.app.keeping import keeping
from thruline.app import search_view
from thruline.app.audit import plan_for
from thruline.app.desk import edited, open_desk
from thruline.app.locate import Place
from thruline.app.search_view import Begin, begun, search_json
from thruline.audit.capture import Came, Capture, Note, NoteKind
from thruline.base.address import read_address
from thruline.base.edit import remove
from thruline.base.errors import CannotUse


@pytest.fixture
def kept():
    return keeping()


@pytest.fixture
def desk(kept):
    return open_desk(kept)


def first_answer(check):
    return check["answers"][0]["id"] if check["answers"] else "none"


def test_without_a_search_the_page_says_how_to_begin(desk, kept):
    said = search_json(desk, kept)
    assert not said["begun"]
    units = desk.state.opened.rig.units.values()
    assert [one["id"] for one in said["units"]] == [one.id for one in units if one.chart.listens]


def test_a_new_search_is_a_desk_that_is_told_of(desk, kept):
    after = begun(desk, kept, Begin(place=Place.TELEPHONE))
    assert after is not desk
    assert after == desk
    said = search_json(after, kept)
    assert said["begun"]
    assert said["search"] == {"place": "telephone", "steps": []}
    assert said["check"]["asks"]


def test_an_answer_is_kept_and_taken_back(desk, kept):
    begun(desk, kept, Begin())
    check = search_json(desk, kept)["check"]
    search_view.answered(desk, kept, first_answer(check), steps=0)
    said = search_json(desk, kept)
    assert said["step_checks"] == [check["id"]]
    assert check["asks"] in said["steps"][0]
    search_view.without(desk, kept, 0, steps=1)
    assert search_json(desk, kept)["check"] == check


def test_an_answer_to_an_earlier_question_is_refused(desk, kept):
    begun(desk, kept, Begin())
    search_view.answered(desk, kept, "not sure", steps=0)
    with pytest.raises(CannotUse, match="somebody else"):
        search_view.answered(desk, kept, "not sure", steps=0)
    with pytest.raises(CannotUse, match="no answer number 7"):
        search_view.without(desk, kept, 6, steps=1)


def test_without_a_search_nothing_can_be_answered(desk, kept):
    with pytest.raises(CannotUse, match="begin one"):
        search_view.answered(desk, kept, "not sure", steps=0)


def test_a_place_is_changed_and_the_search_put_away(desk, kept):
    begun(desk, kept, Begin())
    search_view.moved_to(desk, kept, Place.STAGE)
    assert search_json(desk, kept)["search"]["place"] == "stage"
    search_view.put_away(desk, kept)
    assert not search_json(desk, kept)["begun"]


def test_a_symptom_is_an_answer_and_an_unclear_one_changes_nothing(desk, kept):
    unit = open_desk(kept).state.opened.rig.presets[0].goals[0].unit
    begun(desk, kept, Begin(symptoms=[f"{unit} does nothing"]))
    before = search_json(desk, kept)["search"]
    assert before["steps"]
    with pytest.raises(CannotUse, match="for example"):
        search_view.told(desk, kept, "blue", steps=len(before["steps"]))
    assert search_json(desk, kept)["search"] == before


def test_answers_that_no_longer_fit_the_rig_are_left_out_and_counted(desk, kept):
    begun(desk, kept, Begin())
    check = search_json(desk, kept)["check"]
    search_view.answered(desk, kept, first_answer(check), steps=0)
    number = desk.state.opened.rig.presets[0].number
    if check["id"].split()[-1] != str(number):
        pytest.skip("another preset was asked for")
    after = edited(desk, [remove(read_address(f"preset[{number}]"))], kept, says="gone")
    said = search_json(after, kept)
    assert said["dropped"] == 1
    assert said["steps"] == []


def _one_too_high(desk, kept):
    """A capture of this board in which the controller asks for the wrong values."""
    case = desk.state.case
    meant = plan_for(case, ["feet.midi-out-1"])
    entries, at_us = [], 0
    for step in meant.steps:
        entries.append(Note(at_us, 0, NoteKind.PRESS, str(step.preset)))
        entries.append(Came(at_us + 1000, 1, bytes((0xB3, 20, 7))))
        at_us += 2_000_000
    kept.heard.known["take"] = Capture(lines=("feet.midi-out-1",), entries=tuple(entries))


def _share(said, names):
    return sum(one["likely"] for one in said["suspects"] if one["id"] in names)


def test_a_search_begins_with_what_an_audit_found(desk, kept):
    _one_too_high(desk, kept)
    assert search_json(desk, kept)["captures"] == ["take"]
    after = begun(desk, kept, Begin(capture="take", by_proof=True, symptoms=["delay does nothing"]))
    said = search_json(after, kept)
    assert (said["from_audit"], said["from_proof"], len(said["steps"])) == ("take", True, 1)
    assert kept.search.data["from_audit"]["seen"]
    raised = kept.search.data["from_audit"]["seen"]
    plain = Begin(by_proof=True, symptoms=["delay does nothing"])
    assert _share(said, raised) > _share(search_json(begun(desk, kept, plain), kept), raised)
    after = begun(desk, kept, Begin(capture="take", symptoms=["delay does nothing"]))
    answered = search_view.answered(after, kept, "not sure", steps=1)
    assert search_json(answered, kept)["from_audit"] == "take"


def test_an_audit_that_a_kept_search_garbles_is_left_out(desk, kept):
    begun(desk, kept, Begin())
    kept.search.data["from_audit"] = {"capture": "take", "seen": [1]}
    assert search_json(desk, kept)["from_audit"] == ""


def test_a_capture_that_is_not_there_is_refused(desk, kept):
    with pytest.raises(CannotUse, match="no capture"):
        begun(desk, kept, Begin(capture="none"))
    assert kept.search.data is None
