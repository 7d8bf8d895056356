"""A sending through the rig."""

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.timing.boards import BYTE, rig_of
from thruline.path.network import read_network
from thruline.proof.example_boards import (
    DELAY,
    DELAY_TO_REVERB,
    REVERB,
    TO_DELAY,
    a_cable,
    a_unit,
)
from thruline.rig.whole import Rig
from thruline.timing.fate import Fate
from thruline.timing.roads import WIRE_DELAY_US, roads_of
from thruline.timing.run import Hand, Run, listeners_of, run_all, run_one
from thruline.timing.sending import Item, Purpose, Sending

CHAIN = rig_of(DELAY, REVERB, TO_DELAY, DELAY_TO_REVERB)
PRE = a_unit("pre", "egremont-preamp", "channel = 2", 'settings = { midi-out = "thru" }')
SOFT = rig_of(
    PRE,
    DELAY,
    a_cable("feet.midi-out-1", "pre.midi-in"),
    a_cable("pre.midi-out", "delay.midi-in"),
)
HAND = Hand(gap_us=0, running_status=False)


def sending(*messages: tuple[int, ...]) -> Sending:
    return Sending(tuple(Item(data=bytes(one), purpose=Purpose.OTHER) for one in messages))


def run(rig: Rig, *messages: tuple[int, ...], hand: Hand = HAND) -> Run:
    roads = roads_of(read_network(rig), rig.controller)
    return run_one(roads, listeners_of(rig.units.values()), sending(*messages), hand=hand)


def test_each_unit_hears_its_own_channel_only() -> None:
    found = run(CHAIN, (0xB2, 14, 1), (0xB3, 12, 2), (0xB2, 15, 3))
    assert [one.place for one in found.heard["delay"]] == [0, 2]
    assert [one.place for one in found.heard["reverb"]] == [1]


def test_a_copy_is_a_moment_later() -> None:
    found = run(CHAIN, (0xB2, 14, 1), (0xB3, 12, 2))
    assert found.heard["delay"][0].arrival[:2] == (0, 3 * BYTE)
    start, end = 3 * BYTE + WIRE_DELAY_US, 6 * BYTE + WIRE_DELAY_US
    assert found.heard["reverb"][0].arrival[:2] == (start, end)


def test_a_soft_thru_stores_and_forwards() -> None:
    latency = SOFT.units["pre"].chart.outputs["midi-out"].latency_us or 0
    found = run(SOFT, (0xB2, 14, 1))
    assert found.heard["delay"][0].arrival[:2] == (3 * BYTE + latency, 6 * BYTE + latency)


def test_a_short_message_behind_a_long_one_queues() -> None:
    latency = SOFT.units["pre"].chart.outputs["midi-out"].latency_us or 0
    found = run(SOFT, (0xB2, 14, 1), (0xC2, 5))
    assert found.heard["delay"][1].arrival.end_us == 8 * BYTE + latency


def test_right_when_the_last_unit_is() -> None:
    found = run(CHAIN, (0xB2, 14, 1))
    assert found.right_us == 3 * BYTE + 5_000
    assert run(CHAIN).right_us == 0


def test_without_a_cable_nobody_hears() -> None:
    found = run(rig_of(DELAY), (0xB2, 14, 1))
    assert found.heard["delay"] == ()
    assert found.receptions["delay"].fates == ()


def test_a_controller_without_output_is_silent() -> None:
    rig = rig_of(DELAY)
    roads = roads_of(read_network(rig), None)
    (found,) = run_all(
        roads, listeners_of(rig.units.values()), sendings=[sending((0xC2, 1))], hand=HAND
    )
    assert found.heard["delay"] == ()


_MESSAGE = st.one_of(
    st.tuples(st.integers(0xB0, 0xB5), st.integers(0, 119), st.integers(0, 127)),
    st.tuples(st.integers(0xC0, 0xC5), st.integers(0, 127)),
)


@given(
    batch=st.lists(st.lists(_MESSAGE, max_size=8), min_size=1, max_size=5), running=st.booleans()
)
@settings(max_examples=60)
def test_many_together_are_each_alone(batch: list[list[tuple[int, ...]]], *, running: bool) -> None:
    hand = Hand(gap_us=150, running_status=running)
    for rig in (CHAIN, SOFT):
        roads = roads_of(read_network(rig), rig.controller)
        ears = listeners_of(rig.units.values())
        sendings = [sending(*messages) for messages in batch]
        together = run_all(roads, ears, sendings=sendings, hand=hand)
        assert list(together) == [run_one(roads, ears, one, hand=hand) for one in sendings]


def test_the_same_receiver_can_be_kept_elsewhere() -> None:
    calls: list[str] = []
    roads = roads_of(read_network(CHAIN), CHAIN.controller)
    ears = listeners_of(CHAIN.units.values())

    def counting(ear, arrivals):  # type: ignore[no-untyped-def]
        calls.append(ear.unit.id)
        return run(CHAIN).receptions[ear.unit.id]

    run_all(roads, ears, sendings=[sending((0xB2, 14, 1))], hand=HAND, receives=counting)
    assert calls == ["delay", "reverb"]
    assert Fate.OBEYED.is_good
