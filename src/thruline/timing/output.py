"""One output: its arrivals in, its flow out, with room for everything."""

import numpy as np

from thruline.timing import queues, room
from thruline.timing.arrivals import Arrivals, bytes_of
from thruline.timing.flow import Flow, within
from thruline.timing.network import Output
from thruline.timing.statuses import FIRST_REAL_TIME
from thruline.timing.traffic import Numbers, Truths


def carry(output: Output, coming: Arrivals) -> tuple[Flow, Numbers]:
    """Every message of the arrivals on the wire, first come first served.

    With the flow comes proof that nothing could be lost: where the messages that found too little
    room stand in all that was sent. When there are none, the flow is what happens.
    """
    if is_plain(output, coming):
        return _whole_messages(output, coming)
    return _byte_by_byte(output, coming)


def is_plain(output: Output, coming: Arrivals) -> bool:
    """Whether no message leaves with a gap inside: all come whole and none slips into another."""
    return coming.whole is None and not (output.real_time_first and coming.order.has_real_time)


def left_out(output: Output, coming: Arrivals) -> Truths | None:
    """Whose status byte this output leaves out; None when nobody's."""
    if not output.running_status:
        return None
    if output.refresh_us is None:
        return coming.order.repeated
    return coming.order.repeated & ~_idle_before(output.refresh_us, coming)


def _idle_before(refresh_us: int, coming: Arrivals) -> Truths:
    """Which messages were queued more than `refresh_us` after the one before, real time aside."""
    ready = coming.came_us[coming.order.own]
    long_ago = np.zeros(ready.size, np.bool_)
    np.greater(ready[1:] - ready[:-1], refresh_us, out=long_ago[1:])
    everywhere = np.zeros(coming.came_us.size, np.bool_)
    everywhere[coming.order.own] = long_ago
    return everywhere


def _whole_messages(output: Output, coming: Arrivals) -> tuple[Flow, Numbers]:
    """The running maximum over messages."""
    order, repeated = coming.order, left_out(output, coming)
    end = queues.departures_of(coming.came_us, order.length, repeated)
    if coming.latency_us:
        end += coming.latency_us
    flow = Flow(
        order=order,
        left_out=repeated,
        end_us=end,
        came_us=coming.came_us,
        latency_us=coming.latency_us,
    )
    return flow, room.crowded(flow, output.buffer_bytes)


def _byte_by_byte(output: Output, coming: Arrivals) -> tuple[Flow, Numbers]:
    """The running maximum over bytes, with real time in the next slot if it goes first."""
    order, repeated = coming.order, left_out(output, coming)
    if repeated is None:
        repeated = np.zeros(order.length.size, np.bool_)
    sent_bytes = order.length - repeated
    is_sent = within(order.length) >= np.repeat(repeated, order.length)
    ready = coming.every_byte_ready_us[is_sent]
    urgent = np.zeros(order.length.size, np.bool_)
    if output.real_time_first:
        urgent = order.status >= FIRST_REAL_TIME
    rush = np.repeat(urgent, sent_bytes)
    end = np.empty_like(ready)
    end[~rush], end[rush] = queues.slots(ready[~rush], ready[rush])
    last = end[np.add.accumulate(sent_bytes) - 1]
    stays = room.stays(coming, ~urgent, sent_bytes=sent_bytes, ready_us=ready, end_us=end)
    by_end = np.argsort(last, kind="stable")
    flow = Flow(
        order=order.only(by_end),
        left_out=repeated[by_end],
        end_us=last[by_end],
        byte_end_us=end[bytes_of(sent_bytes, by_end)],
        came_us=coming.came_us[by_end],
        latency_us=coming.latency_us,
        counted_most_held=int(stays.held.max(initial=0)),
    )
    return flow, room.crowded_stays(stays, output.buffer_bytes)
