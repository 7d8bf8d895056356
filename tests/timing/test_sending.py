"""Messages in order, with pauses."""

from hypothesis import given
from hypothesis import strategies as st

from thruline.base.measures import BYTE_US
from thruline.timing.sending import Item, Purpose, Sending, ready_times

CONTROL = bytes((0xB2, 14, 9))
PROGRAM = bytes((0xC2, 5))


def item(data: bytes, pause_us: int = 0) -> Item:
    return Item(data=data, purpose=Purpose.OTHER, pause_us=pause_us)


def test_each_is_handed_over_when_the_one_before_has_left() -> None:
    times = ready_times([item(CONTROL), item(PROGRAM)], gap_us=0, running_status=False)
    assert times == [0, 3 * BYTE_US]


def test_a_pause_counts_from_the_end_of_the_message_before() -> None:
    times = ready_times([item(PROGRAM), item(CONTROL, 5000)], gap_us=150, running_status=False)
    assert times == [150, 150 + 2 * BYTE_US + 5000 + 150]


def test_running_status_leaves_out_a_repeated_status() -> None:
    ones = [item(CONTROL), item(CONTROL), item(PROGRAM), item(CONTROL)]
    times = ready_times(ones, gap_us=0, running_status=True)
    assert times == [0, 3 * BYTE_US, 5 * BYTE_US, 7 * BYTE_US]


@given(
    messages=st.lists(st.tuples(st.sampled_from([CONTROL, PROGRAM]), st.integers(0, 9000))),
    gap=st.integers(0, 500),
    running=st.booleans(),
)
def test_times_never_fall(messages: list[tuple[bytes, int]], gap: int, *, running: bool) -> None:
    ones = [item(data, pause) for data, pause in messages]
    times = ready_times(ones, gap_us=gap, running_status=running)
    assert times == sorted(times)
    assert len(times) == len(ones)


def test_bytes_are_counted_without_running_status() -> None:
    assert Sending((item(CONTROL), item(CONTROL))).byte_count == 6
