from thruline.audit.capture import (
    Came,
    Capture,
    Caught,
    Note,
    NoteKind,
    capture_of,
    capture_of_bytes,
    caught,
)
from thruline.midi.message import ControlChange, ProgramChange
from thruline.midi.stream import Flaw, Malformed


def test_messages_are_put_together_line_by_line():
    entries = (
        Came(0, 1, b"\xc2"),
        Came(10, 2, b"\xb0\x07"),
        Came(20, 1, b"\x05"),
        Came(30, 2, b"\x40\x07"),
        Came(40, 2, b"\x41"),
    )
    found = list(caught(Capture(lines=("a", "b"), entries=entries)))
    assert [(one.at_us, one.line, one.message) for one in found] == [
        (20, 1, ProgramChange(3, 5)),
        (30, 2, ControlChange(1, 7, 64)),
        (40, 2, ControlChange(1, 7, 65)),
    ]
    assert found[2].raw == b"\xb0\x07\x41"


def test_a_line_that_goes_breaks_its_message_off():
    gone = Note(20, 1, NoteKind.GONE, "a")
    entries = (Came(0, 1, b"\xb0\x07"), gone, Came(30, 1, b"\x40"))
    broken, note, orphan = caught(Capture(lines=("a",), entries=entries))
    assert isinstance(broken, Caught)
    assert broken.raw == b"\xb0\x07"
    assert broken.message is None
    assert note == gone
    assert isinstance(orphan.event, Malformed)
    assert orphan.event.flaw is Flaw.ORPHAN_DATA


def test_what_is_unfinished_at_the_end_is_told():
    capture = Capture(lines=("a",), entries=(Came(5, 1, b"\xb0\x07"),))
    (broken,) = caught(capture)
    assert (broken.at_us, broken.event.flaw) == (5, Flaw.BROKEN_OFF)
    assert capture.notes == ()


def test_a_recording_and_plain_bytes():
    timed = [(0, ProgramChange(1, 2)), (900, ControlChange(1, 7, 3))]
    assert [(one.at_us, one.message) for one in caught(capture_of(timed, line="x"))] == timed
    found = list(caught(capture_of_bytes(b"\xc0\x02\x03", line="x")))
    assert [(one.at_us, one.message) for one in found] == [
        (640, ProgramChange(1, 2)),
        (960, ProgramChange(1, 3)),
    ]
