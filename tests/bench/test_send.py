from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.clocks import StepClock
from tests.bench.ports import Kept
from thruline.base.measures import BYTE_US
from thruline.bench.face import PortGone
from thruline.bench.send import Planned, planned, play, silence
from thruline.outside.midi_wires import Wires
from thruline.timing.sending import Item, Purpose

items = st.lists(
    st.builds(
        Item,
        data=st.sampled_from([b"\xc0\x01", b"\xb0\x07\x40", b"\xf8"]),
        purpose=st.just(Purpose.OTHER),
        pause_us=st.integers(0, 50_000),
    ),
    max_size=20,
)


class LateClock(StepClock):
    """Comes back later than asked, by what a list says."""

    def __init__(self, lags):
        super().__init__()
        self.lags = list(lags)

    def wait_until(self, moment_us):
        super().wait_until(moment_us)
        self.now += self.lags.pop() if self.lags else 0


@given(items, st.integers(0, 1000))
def test_the_plan_never_floods_the_line(found, gap):
    plan = planned(found, gap_us=gap)
    assert [one.data for one in plan] == [one.data for one in found]
    for before, after, item in zip(plan, plan[1:], found[1:], strict=False):
        free = before.at_us + BYTE_US * len(before.data)
        assert after.at_us == free + item.pause_us + gap


@given(items, st.lists(st.integers(0, 9_000), max_size=20))
def test_no_gap_is_shorter_than_planned_however_late_the_clock(found, lags):
    plan, port = planned(found), Kept()
    sent = play(plan, [port], LateClock(lags))
    assert port.sent == [one.data for one in plan]
    for at, after in zip(range(len(plan)), range(1, len(plan)), strict=False):
        assert sent[after].at_us - sent[at].at_us >= plan[after].at_us - plan[at].at_us


@given(items, st.lists(st.integers(0, 200_000), max_size=20))
def test_no_gap_is_shorter_however_long_a_port_takes(found, lags):
    clock, handed = StepClock(), []

    class Slow(Kept):
        def send(self, data):
            clock.now += lags.pop() if lags else 0
            handed.append(clock.now)

    plan = planned(found)
    play(plan, [Slow()], clock)
    for at, after in pairwise(range(len(plan))):
        assert handed[after] - handed[at] >= plan[after].at_us - plan[at].at_us


def test_it_stops_when_it_is_told_to():
    port, left = Kept(), [True, False]
    sent = play([Planned(0, b"\xf8")] * 3, [port], StepClock(), goes_on=lambda: left.pop(0))
    assert len(sent) == len(port.sent) == 1


def test_a_port_that_goes_is_told():
    clock = StepClock()
    wires = Wires("a", clock=clock)
    port = wires.open_output("a")
    wires.unplug("a")
    with pytest.raises(PortGone):
        play([Planned(0, b"\xf8")], [port], clock)


def test_silence_is_for_the_channels_in_use():
    found = silence({3, 1})
    assert [one.data.hex() for one in found] == ["b07800", "b07b00", "b27800", "b27b00"]
    assert found[1].at_us == 960
