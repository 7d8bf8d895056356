import pytest

from tests.bench.clocks import StepClock
from thruline.audit.capture import Came, Note, NoteKind
from thruline.audit.capture_text import read_capture
from thruline.base.errors import WorldFailed
from thruline.bench.listen import Session, closed
from thruline.bench.plugged import AGAIN_US, HeldInput
from thruline.outside.midi_wires import Wires


class Paper:
    def __init__(self, room=1000):
        self.rows, self.room, self.closed = [], room, False

    def add(self, rows):
        if len(self.rows) + len(rows) > self.room:
            raise WorldFailed("the disk is full")
        self.rows += rows

    def close(self):
        self.closed = True


def session(*names):
    clock = StepClock(5_000)
    wires = Wires(*names, clock=clock)
    held = [HeldInput(wires, name, clock) for name in names]
    return clock, wires, Session(held, clock, lines=names, began="today")


def test_what_comes_is_logged_as_it_came():
    clock, wires, found = session("a", "b")
    log = Paper()
    found.keep(log)
    clock.now += 100
    wires.open_output("b").send(b"\xc0\x01")
    clock.now += 50
    wires.open_output("a").send(b"\xc0\x02")
    entries = found.turn()
    assert entries == [Came(100, 2, b"\xc0\x01"), Came(150, 1, b"\xc0\x02")]
    entries += found.note(NoteKind.PRESS, "12")
    kept = read_capture("\n".join([*log.rows, ""]))
    assert (kept.lines, kept.began, kept.entries) == (("a", "b"), "today", tuple(entries))
    found.rest()
    assert found.passed_us > 150
    found.close()
    assert log.closed


def test_an_unplugged_port_is_told_and_survived():
    clock, wires, found = session("a", "b")
    wires.unplug("b")
    assert found.turn() == [Note(0, 2, NoteKind.GONE, "b")]
    wires.open_output("a").send(b"\xf8")
    assert [one.line for one in found.turn()] == [1]
    wires.plug_in("b")
    clock.now += AGAIN_US
    assert found.turn() == [Note(AGAIN_US, 2, NoteKind.BACK, "b")]


def test_a_full_disk_is_told_and_the_session_goes_on():
    _, wires, found = session("a")
    log = Paper(room=5)
    found.keep(log)
    out = wires.open_output("a")
    out.send(b"\xf8")
    assert len(found.turn()) == 1
    out.send(b"\xfa")
    came, says = found.turn()
    assert came.data == b"\xfa"
    assert says == Note(0, 0, NoteKind.SAYS, "not logged: the disk is full")
    out.send(b"\xf8")
    assert len(found.turn()) == 1
    assert len(log.rows) == 5, "what was written stays"
    with pytest.raises(WorldFailed, match="the disk is full"):
        found.close()
    trouble = closed(found)
    assert trouble is not None, "whoever asks again is told again"
    assert trouble.says == "the disk is full"


def test_time_never_runs_backwards():
    clock, wires, found = session("a", "b")
    clock.now += 1000
    wires.open_output("a").send(b"\xf8")
    found.turn()
    clock.now -= 500
    wires.open_output("b").send(b"\xf8")
    assert [one.at_us for one in found.turn()] == [1000]
