import pytest

from tests.audit.boards import board
from tests.bench.clocks import StepClock
from thruline.app.listening import MOST_ROWS, MOST_TOLD, Listening
from thruline.audit.capture import Came, Caught, Note, NoteKind
from thruline.bench.listen import Session
from thruline.bench.plugged import HeldInput
from thruline.bench.telling import Choice, Teller
from thruline.outside.midi_wires import Wires
from thruline.proof.case import Case

CASE = Case(board())


@pytest.fixture
def heard():
    clock = StepClock()
    wires = Wires("USB", clock=clock)
    session = Session([HeldInput(wires, "USB", clock)], clock, lines=["USB"])
    return Listening(session, CASE), wires


def test_what_comes_is_given_as_it_came_and_told_in_words(heard):
    listening, wires = heard
    wires.open_output("USB").send(b"\xc0\x05\xc0")
    entries, events = listening.turn()
    assert [type(one) for one in entries] == [Came]
    assert [one.raw for one in events if isinstance(one, Caught)] == [b"\xc0\x05"]
    found = listening.rows(0, Choice())
    assert found["count"] == 1
    assert found["rows"][0]["number"] == 1
    assert found["rows"][0]["bytes"] == "C0 05"
    wires.unplug("USB")
    listening.turn()
    told = listening.rows(1, Choice())["rows"]
    assert [one["kind"] for one in told] == ["malformed", "note-of-the-session"]
    assert "plug it in again" in told[1]["says"]


def test_only_what_is_new_and_wanted_is_given(heard):
    listening, wires = heard
    out = wires.open_output("USB")
    for _ in range(3):
        out.send(b"\xc0\x05")
        out.send(b"\xf8")
    listening.turn()
    assert len(listening.rows(2, Choice())["rows"]) == 4
    wanted = listening.rows(0, Choice(hide=frozenset({"clock"})))
    assert [one["number"] for one in wanted["rows"]] == [1, 3, 5]
    listening.note(NoteKind.PRESS, "1")
    assert listening.rows(6, Choice())["rows"][0]["says"] == "preset 1 is pressed"


def test_a_flood_is_counted_whole_and_its_end_is_shown(heard):
    listening, wires = heard
    out = wires.open_output("USB")
    for _ in range(MOST_TOLD + 10):
        out.send(b"\xc0\x05")
    entries, _ = listening.turn()
    assert len(entries) == listening.count == MOST_TOLD + 10
    found = listening.rows(0, Choice())
    assert found["first"] == 11
    assert len(found["rows"]) == MOST_ROWS
    assert found["rows"][-1]["number"] == listening.count


def test_a_rig_that_was_changed_tells_what_comes_from_then_on(heard):
    listening, wires = heard
    listening.use(Teller(Case(board()), listening.lines))
    wires.open_output("USB").send(b"\xc0\x05")
    _, events = listening.turn()
    assert not [one for one in events if isinstance(one, Note)]
    assert listening.lines == ("USB",)
