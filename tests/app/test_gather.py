import pytest

from tests.bench.clocks import StepClock
from tests.opening import open_text
from thruline.app.gather import Gathering, gather, gathered, pick_unit, refuse_without_midi
from thruline.audit.capture import Came, Capture, Note, NoteKind
from thruline.base.errors import CannotUse
from thruline.bench.face import PortGone
from thruline.bench.listen import Session
from thruline.bench.plugged import HeldInput
from thruline.outside.midi_wires import Wires
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.wiring import open_sample


def test_it_ends_when_it_has_been_quiet():
    gathering = Gathering(until_us=1000, quiet_us=100_000)
    assert not gathering.hear([Came(0, 1, b"\xf0\x01\xf7")], 900)
    assert not gathering.hear([Came(0, 1, b"\xf8")], 100_899), "clock does not count"
    assert not gathering.hear([Came(0, 1, b"\xf0\x02")], 100_899)
    assert gathering.hear([], 200_899)
    assert [one.raw for one in gathering.events] == [b"\xf0\x01\xf7", b"\xf0\x02"]
    assert gathering.count == 5
    assert gathering.hear([], 200_900)
    assert len(gathering.events) == 2


def test_a_port_that_goes_ends_it():
    gathering = Gathering(until_us=1000, quiet_us=100)
    assert gathering.hear([Note(0, 1, NoteKind.GONE, "USB")], 5)
    assert 'port "USB" went away' in gathering.trouble


def test_what_comes_on_a_port_is_gathered():
    clock = StepClock()
    wires = Wires("a", clock=clock)
    session = Session([HeldInput(wires, "a", clock)], clock, lines=["a"])
    wires.open_output("a").send(b"\xf0\x01\xf7")
    found = gather(session, patience_us=1_000_000, quiet_us=200_000)
    assert [one.raw for one in found] == [b"\xf0\x01\xf7"]
    assert session.passed_us < 500_000


def test_patience_ends():
    clock = StepClock()
    session = Session([], clock, lines=["a"])
    assert list(gather(session, patience_us=50_000, quiet_us=1)) == []
    assert session.passed_us >= 50_000


def test_notes_of_a_capture_are_no_answers():
    entries = (Note(0, 0, NoteKind.SAYS, "x"), Came(1, 1, b"\xc0\x01"))
    assert len(list(gathered(Capture(lines=("a",), entries=entries)))) == 1


def test_a_unit_by_its_id():
    opened = open_text('[[unit]]\nid = "feet"\nchart = "braeburn-six"\n')
    assert pick_unit(opened, "feet").id == "feet"
    with pytest.raises(CannotUse, match='did you mean "feet"'):
        pick_unit(opened, "foot")


def test_a_port_that_goes_is_not_taken_for_quiet():
    clock = StepClock()
    wires = Wires("a", clock=clock)
    session = Session([HeldInput(wires, "a", clock)], clock, lines=["a"])
    wires.open_output("a").send(b"\xf0\x01\xf7")
    assert len(session.turn()) == 1
    wires.unplug("a")
    with pytest.raises(PortGone, match='port "a" went away in the middle'):
        gather(session, patience_us=1_000_000, quiet_us=200_000)


def test_what_has_no_midi_socket_has_no_memory_to_keep():
    units = open_sample(sample_text(ORCHARD_STREET), ORCHARD_STREET).rig.units
    refuse_without_midi(units["delay"])
    with pytest.raises(CannotUse, match=r'"supply" \(.*\) has no MIDI socket'):
        refuse_without_midi(units["supply"])
