from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from thruline.timing.sending import Item, Purpose, ready_times

DATA = st.sampled_from(
    [b"\xb2\x0e\x05", b"\xb2\x0f\x05", b"\xb3\x0e\x05", b"\xc2\x07", b"\xf0\x7d\xf7", b"\xf8"]
)
ITEMS = st.lists(
    st.builds(
        lambda data, pause: Item(data, Purpose.OTHER, pause_us=pause), DATA, st.integers(0, 5000)
    ),
    max_size=12,
)


def times(*data, gap_us=0, running_status=False):
    items = [Item(one, Purpose.CONTROL) for one in data]
    return ready_times(items, gap_us=gap_us, running_status=running_status)


def test_messages_leave_one_behind_the_other():
    assert times(b"\xc2\x07", b"\xb2\x0e\x05", b"\xb2\x0f\x05") == [0, 640, 1600]
    assert times(b"\xc2\x07", b"\xb2\x0e\x05", gap_us=100) == [100, 840]


def test_a_pause_begins_when_the_message_before_has_left():
    items = [
        Item(b"\xc2\x07", Purpose.PROGRAM),
        Item(b"\xb2\x0e\x05", Purpose.CONTROL, pause_us=5000),
    ]
    assert ready_times(items, gap_us=100, running_status=False) == [100, 100 + 640 + 5000 + 100]


def test_a_repeated_status_is_left_out():
    assert times(*[b"\xb2\x0e\x05"] * 3, running_status=True) == [0, 960, 1600]
    assert times(b"\xb2\x0e\x05", b"\xb3\x0e\x05", b"\xb3\x0e\x05", running_status=True) == [
        0, 960, 1920,
    ]  # fmt: skip


def test_running_status_survives_real_time_and_nothing_else():
    def third(between):
        sent = [b"\xb2\x0e\x05", between, b"\xb2\x0e\x05", b"\xb2\x0e\x05"]
        start, stop = times(*sent, running_status=True)[2:]
        return stop - start

    assert third(b"\xf8") == 640
    assert third(b"\xf0\x7d\xf7") == 960


@given(ITEMS, st.integers(0, 2000))
def test_never_two_messages_at_once(items, gap):
    begins = ready_times(items, gap_us=gap, running_status=False)
    for (first, second), (one, other) in zip(pairwise(begins), pairwise(items), strict=True):
        assert second - first == 320 * len(one.data) + other.pause_us + gap


@given(ITEMS, st.integers(0, 2000))
def test_running_status_only_saves_time(items, gap):
    plain = ready_times(items, gap_us=gap, running_status=False)
    saving = ready_times(items, gap_us=gap, running_status=True)
    assert all(one <= other for one, other in zip(saving, plain, strict=True))
    saved = [other - one for one, other in zip(saving, plain, strict=True)]
    assert saved == sorted(saved)
    assert all(one % 320 == 0 for one in saved)
