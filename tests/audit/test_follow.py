import random
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.audit.heard import EVERY, MEANT
from thruline.audit.align import align
from thruline.audit.capture import Came, Capture, Note, NoteKind
from thruline.audit.follow import Follower
from thruline.base.errors import CannotUse
from thruline.bench.pretend import Trouble, pretend_capture

WORN = Trouble(lost=0.01, garbled=0.01, dropped=0.01, strays=0.1)


def same(one, other):
    assert one.presses == other.presses
    assert np.array_equal(np.sort(one.keys), np.sort(other.keys))
    assert np.array_equal(one.pressed, other.pressed)
    assert one.malformed == other.malformed


def in_pieces(capture, rng):
    """The same with some messages cut, some ports gone, and some presses passed over."""
    for one in capture.entries:
        if isinstance(one, Came):
            place = rng.randrange(len(one.data)) if rng.random() < 0.2 else 0
            cut = (one.data[:place], one.data[place:]) if place else (one.data,)
            yield from (replace(one, data=data) for data in cut)
            if rng.random() < 0.02:
                yield Note(one.at_us, one.line, NoteKind.GONE, "it")
        else:
            yield one
            if rng.random() < 0.1:
                yield replace(one, kind=NoteKind.SKIP)


@given(st.lists(st.sampled_from(EVERY), max_size=2), st.integers(0, 1 << 30))
def test_asking_at_any_time_gives_what_a_capture_until_then_gives(faults, seed):
    rng = random.Random(seed)
    steps = rng.sample(range(len(MEANT.steps)), 4)
    capture = pretend_capture(MEANT, faults, pressed=steps, trouble=WORN, chance=rng.random)
    entries = [*in_pieces(capture, rng)]
    follower = Follower(MEANT, capture.lines)
    for place, one in enumerate(entries, 1):
        follower.take(one)
        if rng.random() < 0.1 or place == len(entries):
            until = Capture(lines=capture.lines, entries=tuple(entries[:place]))
            same(follower.aligned(), align(until, MEANT))


def test_a_press_is_one_as_soon_as_something_of_it_is_heard():
    follower = Follower(MEANT, MEANT.taps)
    follower.take(Note(0, 0, NoteKind.PRESS, "1"))
    assert not follower.aligned().pressed.any()
    follower.take(Came(1, 1, b"\xc1"))
    assert (follower.aligned().pressed.any(), follower.aligned().malformed) == (False, 1)
    follower.take(Came(2, 1, b"\x00"))
    assert (follower.aligned().pressed.any(), follower.aligned().malformed) == (True, 0)


def test_a_note_about_another_rig():
    with pytest.raises(CannotUse, match='did you mean "Swell"'):
        Follower(MEANT, MEANT.taps).take(Note(0, 0, NoteKind.SWEEP, "Swel"))
