import random

import pytest

from tests.audit.boards import plan
from thruline.audit.align import align
from thruline.audit.capture import Came, Capture
from thruline.audit.fault import Family, Fault
from thruline.audit.verdict import verdict
from thruline.bench.pretend import Trouble, pretend_capture

MEANT = plan()


def found_in(capture):
    return verdict(MEANT, align(capture, MEANT))


def test_a_good_board_is_ticked_off_whole():
    found = found_in(pretend_capture(MEANT))
    assert found.is_clean
    assert all(one.is_right for one in found.ticks)
    assert (found.best.faults, found.unexplained, found.lost) == ((), (), 0)


def test_a_mistake_shows_at_its_presses_and_is_named():
    fault = Fault(Family.NUMBERING, 1, 1)
    found = found_in(pretend_capture(MEANT, [fault]))
    assert found.best.faults == (fault,)
    assert not found.is_clean
    assert [one.is_right for one in found.ticks] == [False] * 12 + [True]
    assert all(len(one.missing) == len(one.more) == 2 for one in found.ticks[:12]), "two taps"
    assert not found.unexplained


def test_what_was_not_pressed_is_not_wrong():
    found = found_in(pretend_capture(MEANT, pressed=[1, 2]))
    assert found.is_clean
    assert [one.done for one in found.ticks].count(True) == 2


@pytest.mark.parametrize("seed", range(10))
def test_a_line_that_loses_some_is_no_mistake(seed):
    trouble = Trouble(lost=0.05)
    found = found_in(pretend_capture(MEANT, trouble=trouble, chance=random.Random(seed).random))
    assert found.best.faults == ()
    assert not found.unexplained
    assert found.lost > 0


def changed(change):
    capture = pretend_capture(MEANT)
    entries = []
    for one in capture.entries:
        entries += [Came(one.at_us, one.line, data) for data in change(one.data)] if isinstance(
            one, Came) else [one]  # fmt: skip
    return Capture(lines=capture.lines, entries=tuple(entries))


@pytest.mark.parametrize(
    "change",
    [
        lambda data: [bytes((*data[:2], data[2] // 2))] if data[0] == 0xB1 else [data],
        lambda data: [data, data] if data[0] & 0x0F == 2 else [data],
        lambda data: [bytes((0xC3, data[1] ^ 0x15))] if data[0] == 0xC3 else [data],
    ],
)
def test_what_no_mistake_explains_is_said(change):
    assert found_in(changed(change)).unexplained
