"""What comes to the queue of one output: latency, what is not passed on, merge."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from thruline.timing import queues
from thruline.timing.flow import STATUS_BYTES, Flow, Order, order_of, within
from thruline.timing.network import Feed, Output, Way
from thruline.timing.statuses import Statuses
from thruline.timing.traffic import Numbers, Positions, Sent, Truths


class Arrivals(NamedTuple):
    """Messages in the order in which they queue at one output."""

    order: Order
    came_us: Numbers
    """When each has come (byte by byte: its first byte), but for the latency."""
    latency_us: int
    """To be added to `came_us`; kept apart so that a chain of units shares one column."""
    whole: Truths | None = None
    """Which messages come whole; None when all do."""
    byte_ready_us: Numbers | None = None
    """Unless all come whole: when each byte is ready, status byte first, message after message.
    A status byte that was left out on the line before counts as ready with the first data byte."""

    @property
    def ready_us(self) -> Numbers:
        """When each message has come and may be queued."""
        return self.came_us + self.latency_us if self.latency_us else self.came_us

    @property
    def every_byte_ready_us(self) -> Numbers:
        """When each byte is ready, status byte first, message after message."""
        if self.byte_ready_us is not None:
            return self.byte_ready_us
        return np.repeat(self.ready_us, self.order.length)


def arrivals(output: Output, flows: Mapping[int, Flow], sent: Sent) -> Arrivals:
    """Everything that queues at an output; at one moment by feed, the own sender last."""
    streams = [heard(feed, flows[feed.source]) for feed in output.feeds]
    if output.sender is not None:
        which = sent.handed_over[output.sender]
        streams.append(Arrivals(order_of(sent, which), sent.ready_us[which], 0))
    if len(streams) == 1:
        return streams[0]
    return merged(streams, sent)


def heard(feed: Feed, flow: Flow) -> Arrivals:
    """What one feed takes from the line it hears."""
    everything = Arrivals(flow.order, flow.end_us, feed.latency_us)
    if feed.way is Way.BYTES:
        everything = _byte_by_byte(flow, feed.latency_us)
    passing = what_passes(feed.blocks, everything.order)
    return everything if passing is None else only(everything, np.flatnonzero(passing))


def what_passes(blocks: Statuses, order: Order) -> Truths | None:
    """Which of the messages are passed on; None when all are."""
    if blocks.isdisjoint(order.present):
        return None
    passes = np.ones(STATUS_BYTES, np.bool_)
    passes[list(blocks)] = False
    return passes[order.status]


def only(coming: Arrivals, chosen: Positions) -> Arrivals:
    """These messages of the arrivals, in the order of the positions given."""
    order, came = coming.order.only(chosen), coming.came_us[chosen]
    if coming.whole is None or coming.byte_ready_us is None:
        return Arrivals(order, came, coming.latency_us)
    ready = coming.byte_ready_us[bytes_of(coming.order.length, chosen)]
    return Arrivals(order, came, coming.latency_us, coming.whole[chosen], ready)


def bytes_of(counts: Numbers, chosen: Positions) -> Numbers:
    """Positions of the bytes of the chosen messages, where message i has counts[i] bytes."""
    first = np.add.accumulate(counts) - counts
    taken = counts[chosen]
    return np.repeat(first[chosen], taken) + within(taken)


def merged(streams: Sequence[Arrivals], sent: Sent) -> Arrivals:
    """Several streams as one queue takes them: by time, of one moment the earlier stream first."""
    if not streams:
        return Arrivals(order_of(sent, slice(0, 0)), sent.ready_us[:0], 0)
    times = [stream.ready_us for stream in streams]
    joined = order_of(sent, np.concatenate([stream.order.positions for stream in streams]))
    ready = np.concatenate(times)
    if all(stream.whole is None for stream in streams):
        everything = Arrivals(joined, ready, 0)
    else:
        everything = Arrivals(
            joined,
            ready,
            0,
            np.concatenate([_whole(stream) for stream in streams]),
            np.concatenate([stream.every_byte_ready_us for stream in streams]),
        )
    return only(everything, queues.merge_order(times))


def _whole(stream: Arrivals) -> Truths:
    """Which messages of a stream come whole, written out."""
    return np.ones(stream.came_us.size, np.bool_) if stream.whole is None else stream.whole


def _byte_by_byte(flow: Flow, latency_us: int) -> Arrivals:
    """The messages of a line as a byte-wise input takes them, in the order of their first bytes."""
    length, sent_bytes = flow.length, flow.sent_bytes
    first = np.add.accumulate(sent_bytes) - sent_bytes
    place = np.maximum(within(length) - np.repeat(length - sent_bytes, length), 0)
    place += np.repeat(first, length)
    ready = flow.every_byte_end_us[place] + latency_us
    began = ready[np.add.accumulate(length) - length]
    everything = Arrivals(flow.order, began, 0, np.zeros(length.size, np.bool_), ready)
    if flow.order.has_real_time:
        return only(everything, np.argsort(began, kind="stable"))
    return everything
