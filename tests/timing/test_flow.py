import numpy as np

from tests.timing import cases
from thruline.timing.flow import Flow, order_of, within
from thruline.timing.traffic import batch, sent_many, sent_once

ROWS = [(0, 3, 0xB0, 10), (0, 1, 0xF8, 11), (0, 3, 0xB0, 12), (0, 2, 0xC0, 13)]


def order(rows=ROWS):
    return order_of(sent_once([cases.as_traffic(rows)]), slice(0, len(rows)))


def test_what_is_derived_from_an_order():
    some = order()
    assert some.has_real_time
    assert some.present == {0xB0, 0xC0, 0xF8}
    assert some.longest == 3
    assert some.repeated.tolist() == [False, False, True, False]
    assert some.ident.tolist() == [10, 11, 12, 13]
    assert some.positions.tolist() == [0, 1, 2, 3]


def test_some_of_an_order():
    some = order().only(np.array([3, 0, 2]))
    assert some.ident.tolist() == [13, 10, 12]
    assert not some.has_real_time
    assert some.repeated.tolist() == [False, False, True]
    assert some.only(np.array([False, True, True])).ident.tolist() == [10, 12]


def test_what_must_have_left_is_worked_out_once():
    some = order()
    assert some.last_to_have_left(4) is some.last_to_have_left(4)
    assert some.last_to_have_left(4).tolist() == [-1, -1, 0, 2]


def test_an_order_of_nothing():
    nothing = order([])
    assert nothing.longest == 0
    assert not nothing.present
    assert nothing.repeated.size == 0


def test_status_is_not_repeated_over_the_end_of_a_sending():
    sent = sent_many([batch([[0, 0, 0]] * 2, [[1, 3, 3]] * 2, status=[[0xF8, 0xB0, 0xB0]] * 2)], 9)
    assert order_of(sent, slice(0, 6)).repeated.tolist() == [False, False, True] * 2
    assert order_of(sent, slice(0, 6)).ident.tolist() == [0, 1, 2, 3, 4, 5]


def test_bytes_of_messages_without_a_gap_follow_from_their_ends():
    flow = Flow(
        order=order(),
        left_out=np.array([False, False, True, False]),
        end_us=np.array([960, 1280, 1920, 2560]),
    )
    assert flow.sent_bytes.tolist() == [3, 1, 2, 2]
    assert flow.length.tolist() == [3, 1, 3, 2]
    assert flow.start_us.tolist() == [0, 960, 1280, 1920]
    assert flow.every_byte_end_us.tolist() == [320, 640, 960, 1280, 1600, 1920, 2240, 2560]


def test_most_held_counts_a_message_until_its_last_byte_has_left():
    rows = [(0, 3, 0xB0, 0), (100, 3, 0xB1, 1), (960, 2, 0xC0, 2)]
    flow = Flow(
        order=order(rows),
        left_out=None,
        end_us=np.array([960, 1920, 2560]),
        came_us=np.array([0, 90, 950]),
        latency_us=10,
    )
    assert flow.queued_us is not None
    assert flow.queued_us.tolist() == [10, 100, 960]
    assert flow.most_held == 6


def test_places_within_messages():
    assert within(np.array([3, 1, 2])).tolist() == [0, 1, 2, 0, 0, 1]
    assert within(np.array([], np.int64)).tolist() == []
