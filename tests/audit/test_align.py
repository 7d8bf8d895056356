from dataclasses import replace

import numpy as np
import pytest

from tests.audit.boards import plan
from thruline.audit.align import align
from thruline.audit.build import build
from thruline.audit.capture import Came, Capture, Note, NoteKind
from thruline.audit.fault import Family, Fault
from thruline.audit.meant import NO_KEY
from thruline.bench.pretend import pretend_capture

MEANT = plan()


def without_notes(capture):
    came = tuple(one for one in capture.entries if isinstance(one, Came))
    return Capture(lines=capture.lines, entries=came)


def expected(pressed, faults=()):
    keys = build(MEANT, faults, pressed)
    return np.sort(keys[keys != NO_KEY])


@pytest.mark.parametrize("noted", [True, False])
@pytest.mark.parametrize("faults", [(), (Fault(Family.NUMBERING, 0, 1),)])
def test_what_is_played_is_heard_at_the_right_press(noted, faults):
    capture = pretend_capture(MEANT, faults)
    found = align(capture if noted else without_notes(capture), MEANT)
    assert found.pressed.all()
    assert (np.sort(found.keys) == expected(found.pressed, faults)).all()


def test_fewer_parts_go_where_they_fit():
    steps = [1, 4, 5, 9, 11]
    found = align(without_notes(pretend_capture(MEANT, pressed=steps)), MEANT)
    assert np.flatnonzero(found.pressed).tolist() == steps
    assert (np.sort(found.keys) == expected(found.pressed)).all()


def test_what_fits_nowhere_stays_unplaced():
    capture = without_notes(pretend_capture(MEANT, pressed=[2, 3, 2]))
    found = align(capture, MEANT)
    assert [one.step for one in found.presses].count(None) == 1


def test_a_press_done_again_counts_as_it_was_the_last_time():
    entries = (
        Note(0, 0, NoteKind.PRESS, "1"), Came(10, 1, b"\xc1\x09"),
        Note(20, 0, NoteKind.PRESS, "1"), Came(30, 1, b"\xc1\x00"),
        Note(40, 0, NoteKind.PRESS, "2"), Note(50, 0, NoteKind.SKIP, "preset 2"),
        Note(60, 0, NoteKind.PRESS, "3"),
    )  # fmt: skip
    found = align(Capture(lines=MEANT.taps, entries=entries), MEANT)
    assert found.keys.size == 1
    assert np.flatnonzero(found.pressed).tolist() == [0], "passed over, and not heard at the end"


def test_clock_and_pedals_are_no_part_of_a_press():
    capture = pretend_capture(MEANT, pressed=[0])
    last = capture.entries[-1].at_us
    more = [Came(last + 1, 1, b"\xf8"), Came(last + 2, 1, b"\xfe")]
    more += [Came(last + 3 + place, 1, bytes((0xB2, 41, place))) for place in range(40)]
    entries = (*capture.entries, *more)
    found = align(Capture(lines=MEANT.taps, entries=entries), MEANT)
    assert (np.sort(found.keys) == expected(found.pressed)).all()


def test_a_line_of_one_name_is_the_first_tap():
    capture = pretend_capture(plan("feet.midi-out"))
    renamed = Capture(lines=("USB",), entries=capture.entries)
    assert align(renamed, plan("feet.midi-out")).pressed.all()


def test_malformed_bytes_are_counted():
    capture = Capture(lines=MEANT.taps, entries=(Came(0, 1, b"\x05\xc1\x00"),))
    assert align(capture, MEANT).malformed == 1


def test_who_is_there_may_be_asked_meanwhile():
    capture = pretend_capture(MEANT, pressed=[0, 1])
    request, reply = "f0 7e 7f 06 01 f7", "f0 7e 00 06 02 7d 03 00 01 03 01 00 00 00 f7"
    entries = list(capture.entries)
    place = next(at for at, one in enumerate(entries) if isinstance(one, Came))
    asked = [Came(entries[place].at_us, 1, bytes.fromhex(one)) for one in (request, reply)]
    entries[place:place] = asked
    assert np.array_equal(
        align(replace(capture, entries=tuple(entries)), MEANT).keys, align(capture, MEANT).keys
    )
