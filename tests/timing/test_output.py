import numpy as np

from tests.timing import cases
from thruline.timing.arrivals import Arrivals
from thruline.timing.flow import order_of
from thruline.timing.network import Output
from thruline.timing.output import carry, is_plain, left_out
from thruline.timing.traffic import sent_once


def arriving(rows, *, latency_us=0):
    """Whole messages as one output receives them."""
    sent = sent_once([cases.as_traffic(rows)])
    return Arrivals(order_of(sent, slice(0, len(rows))), sent.ready_us, latency_us)


CHANGES = [(0, 3, 0xB0, 0), (0, 3, 0xB0, 1), (9, 1, 0xF8, 2)]


def test_an_output_is_plain_unless_bytes_or_real_time_slip_in():
    assert is_plain(Output(), arriving(CHANGES))
    assert not is_plain(Output(real_time_first=True), arriving(CHANGES))
    assert is_plain(Output(real_time_first=True), arriving(CHANGES[:2]))
    bytewise = arriving(CHANGES)._replace(whole=np.zeros(3, np.bool_))
    assert not is_plain(Output(), bytewise)


def test_latency_counts_before_the_queue():
    flow, crowded = carry(Output(), arriving(CHANGES, latency_us=100))
    assert flow.end_us.tolist() == [1060, 2020, 2340]
    assert crowded.size == 0
    assert flow.queued_us is not None
    assert flow.queued_us.tolist() == [100, 100, 109]


def test_status_bytes_are_left_out_with_running_status_only():
    assert left_out(Output(), arriving(CHANGES)) is None
    repeated = left_out(Output(running_status=True), arriving(CHANGES))
    assert repeated is not None
    assert repeated.tolist() == [False, True, False]


def test_idle_time_is_counted_real_time_aside():
    rows = [(0, 3, 0xB0, 0), (900, 1, 0xF8, 1), (1001, 3, 0xB0, 2)]
    repeated = left_out(Output(running_status=True, refresh_us=1000), arriving(rows))
    assert repeated is not None
    assert not repeated.any()


def test_both_ways_to_carry_agree_on_whole_messages():
    coming = arriving(CHANGES)
    written_out = coming._replace(
        whole=np.ones(3, np.bool_), byte_ready_us=coming.every_byte_ready_us
    )
    for output in (Output(), Output(running_status=True, buffer_bytes=4)):
        plain, crowded = carry(output, coming)
        by_byte, crowded_too = carry(output, written_out)
        assert cases.rows(plain) == cases.rows(by_byte)
        assert plain.most_held == by_byte.most_held == 7
        assert bool(crowded.size) == bool(crowded_too.size) == (output.buffer_bytes == 4)


def test_real_time_that_goes_first_takes_no_room():
    flow, crowded = carry(Output(real_time_first=True, buffer_bytes=6), arriving(CHANGES))
    assert flow.most_held == 6
    assert crowded.size == 0
    assert flow.ident.tolist() == [2, 0, 1]
    assert flow.end_us.tolist() == [640, 1280, 2240]
