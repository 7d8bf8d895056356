import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from tests.timing import cases
from thruline.timing.arrivals import Arrivals
from thruline.timing.flow import order_of
from thruline.timing.loss import Stay, always_fit, let_in
from thruline.timing.network import Output
from thruline.timing.traffic import sent_once

stays = st.lists(
    st.builds(
        lambda begin, lasts, size: Stay(begin, begin + lasts, size),
        st.integers(0, 30),
        st.integers(1, 20),
        st.integers(1, 5),
    )
)


@given(stays, st.integers(0, 20))
def test_things_fit_when_no_moment_holds_too_much(some, room):
    fullest = max(
        (sum(one.size for one in some if one.begin_us <= now < one.until_us) for now in range(60)),
        default=0,
    )
    assert always_fit(some, room) == (fullest <= room)


def arriving(rows):
    """Whole messages as one output receives them."""
    sent = sent_once([cases.as_traffic(rows)])
    return Arrivals(order_of(sent, slice(0, len(rows))), sent.ready_us, 0)


def test_what_leaves_makes_room_for_what_comes_at_that_moment():
    coming = arriving([(0, 3, 0xB0, 0), (959, 3, 0xB1, 1), (960, 3, 0xB2, 2)])
    assert let_in(Output(), coming, 3).tolist() == [True, False, True]


def test_a_lost_message_does_not_touch_running_status():
    # The fourth goes without its status, so it has left at 2240; with it the last would be lost.
    rows = [
        (0, 3, 0xB0, 0),
        (0, 3, 0xB0, 1),
        (0, 3, 0xB1, 2),
        (960, 3, 0xB0, 3),
        (2240, 6, 0xF0, 4),
    ]
    allowed = let_in(Output(running_status=True), arriving(rows), 6)
    assert allowed.tolist() == [True, True, False, True, True]


def test_urgent_bytes_are_let_in_and_hold_up_the_others():
    coming = arriving([(0, 3, 0xB0, 0), (1, 1, 0xF8, 1), (960, 3, 0xB1, 2), (1280, 3, 0xB1, 3)])
    first = Output(real_time_first=True)
    assert let_in(first, coming, 3).tolist() == [True, True, False, True]
    assert let_in(Output(), coming, 3).tolist() == [True, False, True, False]


def test_status_is_sent_again_after_an_idle_time():
    rows = [(0, 3, 0xB0, 0), (2000, 3, 0xB0, 1), (2640, 3, 0xB0, 2), (2960, 3, 0xB0, 3)]
    output = Output(running_status=True, refresh_us=1999)
    assert let_in(output, arriving(rows), 3).tolist() == [True, True, False, True]
    assert let_in(Output(running_status=True), arriving(rows), 3).tolist() == [
        True, True, True, False,
    ]  # fmt: skip


def test_no_arrivals_are_no_trouble():
    assert let_in(Output(), arriving([]), 0).tolist() == np.empty(0).tolist()
