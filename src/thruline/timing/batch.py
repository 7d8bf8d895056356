"""Many sendings through the same network in one go, each as if the rig had been at rest before."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from thruline.base.errors import CannotUse
from thruline.base.measures import BYTE_US
from thruline.timing.flow import Flow
from thruline.timing.network import Copy, Network, Output
from thruline.timing.play import check_senders, play_sent
from thruline.timing.traffic import Batch, Numbers, Sent, Truths, sent_many

NEVER_US = -(1 << 62)
"""The time of what does not happen; earlier than any, so that a maximum passes it over."""

LONGEST_US = 1 << 61
"""A batch whose sendings together last longer is refused."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Played:
    """The flows of a batch of B sendings."""

    flows: tuple[Flow, ...]
    """One a line, all sendings one behind the other: sending b begins at b times `pitch_us`. What
    a flow calls `ident` is the message's place in the tables, sender after sender, row after
    row."""
    sent: Sent
    pitch_us: int
    widths: tuple[int, ...]
    """Columns of each sender's table."""
    might_lose: Truths
    """Which of the B sendings might lose messages in some buffer. For these the flows are those
    of buffers with endless room: play them one by one. For all others they are exact."""


def play_many(network: Network, senders: Sequence[Batch]) -> Played:
    """Every sending of a batch: the same as `play` for each alone, much faster.

    Each sender's table has one row a sending. Raises CannotUse when there are too few senders,
    their numbers of sendings differ, or they last too long together.
    """
    check_senders(network, len(senders))
    counts = {sender.ready_us.shape[0] for sender in senders}
    if len(counts) > 1:
        raise CannotUse(f"senders with different numbers of sendings: {sorted(counts)}")
    count = max(counts, default=0)
    pitch = _pitch_us(network, senders)
    if (count + 1) * pitch > LONGEST_US:
        raise CannotUse(f"{count} sendings of up to {pitch} us are too long to be played at once")
    sent = sent_many(senders, pitch)
    crowded: list[Numbers] = []
    flows = play_sent(network, sent, crowded)
    might_lose = np.zeros(count, np.bool_)
    if sent.sending is not None:
        for positions in crowded:
            might_lose[sent.sending[positions]] = True
    widths = tuple(sender.ready_us.shape[1] for sender in senders)
    return Played(flows=flows, sent=sent, pitch_us=pitch, widths=widths, might_lose=might_lose)


def _pitch_us(network: Network, senders: Sequence[Batch]) -> int:
    """Longer than any sending lasts, from its first message ready to the last byte on any line.

    No queue is empty later than all its messages have come plus the time they take one after
    the other, so a bound follows from line to line.
    """
    first, last, most = 0, [], []
    for sender in senders:
        message = sender.length > 0
        first = min(first, int(sender.ready_us.min(initial=0, where=message)))
        last.append(int(sender.ready_us.max(initial=0, where=message)))
        most.append(int(sender.length.sum(axis=1).max(initial=0)))
    ended, carried = [0] * len(network.lines), [0] * len(network.lines)
    for index in network.in_order:
        match network.lines[index]:
            case Copy(source=source, delay_us=delay):
                ended[index], carried[index] = ended[source] + delay, carried[source]
            case Output(feeds=feeds, sender=own):
                comes = [ended[feed.source] + feed.latency_us for feed in feeds]
                sizes = [carried[feed.source] for feed in feeds]
                if own is not None:
                    comes, sizes = [*comes, last[own]], [*sizes, most[own]]
                carried[index] = sum(sizes)
                ended[index] = max(comes, default=0) + sum(sizes) * BYTE_US
    return max([*last, *ended], default=0) - first + 1


def ends(played: Played, line: int, *, sender: int = 0) -> Numbers:
    """When each message of a sender has first ended on a line, from the start of its sending.

    A table like the sender's own; NEVER_US where a message never comes there.
    """
    flow, piece = played.flows[line], played.sent.pieces[sender]
    shape = (played.might_lose.size, played.widths[sender])
    begin = np.arange(shape[0])[:, None] * played.pitch_us
    if isinstance(flow.order.which, slice) and flow.order.which == piece:
        return flow.end_us.reshape(shape) - begin
    table = np.full(shape, NEVER_US, np.int64)
    places = flow.order.positions[::-1] - piece.start
    inside = (places >= 0) & (places < table.size)
    table.reshape(-1)[places[inside]] = flow.end_us[::-1][inside]
    return np.subtract(table, begin, out=table, where=table != NEVER_US)


def of_sending(played: Played, line: int, sending: int) -> slice:
    """Where the messages of one sending stand in the flow of a line."""
    position = played.flows[line].order.positions
    if played.sent.sending is None:
        return slice(0, 0)
    begin, end = np.searchsorted(played.sent.sending[position], [sending, sending + 1]).tolist()
    return slice(begin, end)
