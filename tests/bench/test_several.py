import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.bench.clocks import StepClock
from tests.bench.ports import Kept, Mute
from tests.wires.in_memory import Script
from thruline.base.errors import WorldFailed
from thruline.bench.face import PortGone
from thruline.bench.send import Planned
from thruline.bench.several import Way, look_at_every, play_again, play_parted, silence_every

OUTPUTS = (None, "one", "two")


class Falls(Kept):
    """A port that goes after so many messages, and is back once `stays` is raised."""

    def __init__(self, name="A", stays=10**6):
        super().__init__(name)
        self.stays = stays

    def send(self, data):
        if len(self.sent) >= self.stays:
            raise PortGone(f'port "{self.name}" is gone')
        super().send(data)


plans = st.lists(st.sampled_from(OUTPUTS), max_size=12).map(
    lambda overs: [Planned(1000 * n, bytes((0xC0, n)), "u", one) for n, one in enumerate(overs)]
)


@given(plans, st.lists(st.tuples(st.sampled_from(OUTPUTS), st.integers(0, 12)), max_size=4))
def test_a_port_that_goes_takes_nothing_from_the_others(plan, asked):
    ways = [Way(Falls(str(n), stays), over) for n, (over, stays) in enumerate(asked)]
    took = play_parted(plan, ways, StepClock())
    for way, one in zip(ways, took, strict=True):
        own = [each.data for each in plan if None in (way.over, each.over) or way.over == each.over]
        assert [each.data for each in one.wanted] == own
        assert way.port.sent == [each.data for each in one.sent] == own[: way.port.stays]
        assert bool(one.trouble) == (len(own) > way.port.stays)


@given(
    st.lists(st.tuples(st.integers(0, 1_000_000), st.sampled_from(OUTPUTS)), max_size=8),
    st.lists(st.integers(0, 3_000_000), min_size=1, max_size=3),
    st.booleans(),
)
def test_what_a_port_lost_without_a_word_is_told_for_this_very_sending(gaps, pulls, lands):
    plan, at_us, clock = [], 0, Script()
    for number, (gap_us, over) in enumerate(gaps):
        at_us += gap_us
        plan.append(Planned(at_us, bytes((0xC0, number)), "u", over))
    ways = [Way(Mute(clock, str(n)), OUTPUTS[n % 3]) for n in range(len(pulls))]
    for way, pull_us in zip(ways, pulls, strict=True):
        clock.at(pull_us, way.port.pull)
    clock.wait_until(0)
    took = play_parted(plan, ways, clock, lands=lands)
    for one in took:
        own = [each.data for each in one.wanted]
        got = one.way.port.got
        assert got == own[: len(got)]
        assert one.trouble or got == own or (not lands and one.way.port.there)
        assert not one.trouble or not one.way.port.there


def test_a_port_that_nothing_is_for_may_be_gone():
    clock = StepClock()
    gone, good = Mute(clock), Kept()
    gone.pull()
    plan = [Planned(0, b"\xc0\x01", "u", "one")]
    took = play_parted(plan, [Way(good, "one"), Way(gone, "two")], clock)
    assert [(one.count, one.trouble) for one in took] == [(1, ""), (0, "")]
    look_at_every([Way(good)], land=True)
    with pytest.raises(PortGone, match='"mute" is gone; port "mute" is gone'):
        look_at_every([Way(gone), Way(good), Way(gone)])


def test_what_was_lost_is_sent_again_from_its_beginning():
    plan = [Planned(5000 * n, bytes((0xC0, n)), over="two" if n else "one") for n in range(4)]
    good, falls, clock = Falls(), Falls("B", stays=2), StepClock()
    took = play_parted(plan, [Way(good, "one"), Way(falls, "two")], clock)
    assert [(one.count, one.trouble) for one in took] == [(1, ""), (2, 'port "B" is gone')]
    lost = [one for one in took if one.trouble]
    assert play_again(lost, clock)[0].count == 0, "it is not back yet"
    falls.sent, falls.stays = [], 9
    begin = clock.now_us()
    (again,) = play_again(lost, clock)
    assert (again.count, again.trouble) == (3, "")
    assert falls.sent == [one.data for one in plan[1:]]
    assert clock.now_us() - begin == 10_000, "its first message leaves at once"
    assert len(good.sent) == 1


def test_nothing_is_waited_for_when_all_are_gone():
    clock = StepClock()
    play_parted([Planned(0, b"\xf8"), Planned(10**9, b"\xf8")] * 2, [Way(Falls(stays=0))], clock)
    assert clock.now_us() <= 10**9
    one = Way(Falls())
    (took,) = play_parted([Planned(0, b"\xf8")] * 3, [one], clock, goes_on=lambda: False)
    assert (took.count, took.trouble) == (0, "")


def test_silence_reaches_whoever_is_there():
    good = Falls("B")
    says = silence_every([Way(Falls(stays=0)), Way(good)], [1], StepClock())
    assert says == 'all sound and all notes off, sent to B (port "A" is gone)'
    assert good.sent == [b"\xb0\x78\x00", b"\xb0\x7b\x00"]
    with pytest.raises(WorldFailed, match=r"NOT sent.* by hand"):
        silence_every([Way(Falls(stays=0))], [1], StepClock())
