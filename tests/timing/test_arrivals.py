import numpy as np

from tests.timing import cases
from thruline.timing.arrivals import arrivals, bytes_of, heard, merged, only, what_passes
from thruline.timing.network import Feed, Output, Way, network
from thruline.timing.play import play
from thruline.timing.statuses import CLOCK, CONTROL_CHANGES, PROGRAM_CHANGES
from thruline.timing.traffic import sent_once

ROWS = [(0, 3, 0xB0, 0), (0, 3, 0xB0, 1), (330, 1, 0xF8, 2)]


def first_line(*, real_time_first=False):
    """Line 0: two control changes with running status, and a clock."""
    output = Output(sender=0, running_status=True, real_time_first=real_time_first)
    return play(network([output]), [cases.as_traffic(ROWS)])[0]


def test_whole_messages_come_when_all_is_received_and_the_latency_over():
    coming = heard(Feed(source=0, latency_us=9), first_line())
    assert coming.whole is None
    assert coming.ready_us.tolist() == [969, 1609, 1929]
    assert coming.every_byte_ready_us.tolist() == [969] * 3 + [1609] * 3 + [1929]


def test_bytes_come_one_by_one_and_a_status_left_out_with_the_first_data_byte():
    coming = heard(Feed(source=0, latency_us=9, way=Way.BYTES), first_line())
    assert coming.ready_us.tolist() == [329, 1289, 1929]
    assert coming.every_byte_ready_us.tolist() == [329, 649, 969, 1289, 1289, 1609, 1929]


def test_byte_wise_messages_queue_by_their_first_bytes():
    coming = heard(Feed(source=0, way=Way.BYTES), first_line(real_time_first=True))
    assert coming.order.ident.tolist() == [0, 2, 1]
    assert coming.every_byte_ready_us.tolist() == [320, 640, 1280, 960, 1600, 1600, 1920]


def test_what_is_blocked_does_not_come():
    for way in Way:
        coming = heard(Feed(source=0, blocks=CLOCK, way=way), first_line())
        assert coming.order.ident.tolist() == [0, 1]


def test_an_order_that_passes_whole_is_shared():
    flow = first_line()
    assert what_passes(PROGRAM_CHANGES, flow.order) is None
    assert heard(Feed(source=0, blocks=PROGRAM_CHANGES), flow).order is flow.order
    passes = what_passes(CONTROL_CHANGES, flow.order)
    assert passes is not None
    assert passes.tolist() == [False, False, True]


def test_feeds_and_own_sender_are_merged_by_time():
    sent = sent_once([cases.as_traffic(ROWS), cases.as_traffic([(960, 2, 0xC0, 7)])])
    flows = {0: first_line()}
    output = Output(feeds=(Feed(source=0), Feed(source=0, way=Way.BYTES)), sender=1)
    coming = arrivals(output, flows, sent)
    assert coming.ready_us.tolist() == [320, 960, 960, 1280, 1600, 1920, 1920]
    assert coming.whole is not None
    assert coming.whole.tolist() == [False, True, True, False, True, True, False]
    assert coming.order.status.tolist() == [0xB0, 0xB0, 0xC0, 0xB0, 0xB0, 0xF8, 0xF8]


def test_nothing_comes_from_nowhere():
    assert merged([], sent_once([])).ready_us.size == 0


def test_some_of_the_arrivals_keep_their_bytes():
    coming = only(heard(Feed(source=0, way=Way.BYTES), first_line()), np.array([2, 1]))
    assert coming.every_byte_ready_us.tolist() == [1920, 1280, 1280, 1600]


def test_bytes_of_chosen_messages():
    assert bytes_of(np.array([2, 3, 1]), np.array([2, 0])).tolist() == [5, 0, 1]
