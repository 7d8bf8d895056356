"""Many units in a row that pass on the same messages: all their lines in one go.

When an output passes on all that it hears, whole message by whole message, and leaves out the same
status bytes as the output before it, its messages have the same service s[i] and the same sums S[i]
(see `queues`). Put the end of one hop, lead[i] + S[i] + latency, into the scan of the next:

    lead'[i] = max over j <= i of (lead[j] + s[j]), the latency added

The lead never falls, so of all ways to spread h such steps over messages up to i, the best spends
all of them on one message, the longest:

    lead after h hops = max over j <= i of (lead[j] + h s[j]), all latencies added

So every line of such a tree needs one running maximum and no other line's times. And where
messages have only a few different lengths, as on most lines, not even that: keep for each length
the lead of the latest message of that length, and each line is the largest of a few columns.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from thruline.base.measures import BYTE_US
from thruline.timing.flow import Flow
from thruline.timing.network import Copy, Feed, Network, Output, Way
from thruline.timing.queues import BLOCK, NEVER_US, services
from thruline.timing.traffic import Numbers

MANY = 4_000
"""Messages from which a running maximum costs more than a few calls for each length."""

BYTE_US_TWOS = 6
"""320 is 5 times two to the power of this; shifting is much faster than dividing."""

WIDEST_BYTES = 1 << 12
"""Longer messages are not counted by length."""


class Stage(NamedTuple):
    """A line that carries the messages of a leading line, later."""

    line: int
    source: int
    """The line it hears: the leader or another stage."""
    hops: int
    """Queues since the leader."""
    shift_us: int
    """Latencies and delays since the leader."""


def stages(network: Network, leader: int, flow: Flow) -> list[Stage]:
    """All lines below an output that carry just what it carries, sources before listeners."""
    output = network.lines[leader]
    if not isinstance(output, Output) or output.refresh_us is not None:
        return []
    found = [Stage(leader, leader, 0, 0)]
    for source in found:
        for child in network.heard_by[source.line]:
            match network.lines[child]:
                case Copy(delay_us=delay):
                    stage = Stage(child, source.line, source.hops, source.shift_us + delay)
                    found.append(stage)
                case Output(feeds=(feed,)) as line if _passes_all(line, feed, flow):
                    if line.running_status == output.running_status:
                        shift = source.shift_us + feed.latency_us
                        found.append(Stage(child, source.line, source.hops + 1, shift))
                case _:
                    pass
    return found[1:]


def _passes_all(output: Output, feed: Feed, flow: Flow) -> bool:
    """Whether an output sends just the messages of the flow, in their order, whole."""
    return (
        output.sender is None
        and output.refresh_us is None
        and feed.way is Way.WHOLE
        and not (output.real_time_first and flow.order.has_real_time)
        and (not feed.blocks or feed.blocks.isdisjoint(flow.order.present))
    )


def ends(stages: Sequence[Stage], leader: Flow) -> Numbers:
    """When every message of the leader has ended on each stage's line: one row a stage."""
    table = np.empty((len(stages), leader.end_us.size), np.int64)
    deepest = max(stage.hops for stage in stages)
    kinds = lengths_on_the_wire(leader) if deepest > 1 and table.shape[1] >= MANY else []
    if kinds and deepest >= 2 * len(kinds):
        _length_by_length(table, stages, leader=leader, lengths=kinds)
    else:
        _hop_by_hop(table, stages, leader)
    return table


def lengths_on_the_wire(flow: Flow) -> list[int]:
    """The different lengths on the wire; none when there is one too long to count by length."""
    found: set[int] = set()
    for _, service, _ in services(flow.length, flow.left_out):
        if service.max() > WIDEST_BYTES * BYTE_US:
            return []
        counts = np.bincount(np.right_shift(service, BYTE_US_TWOS, out=service))
        found.update(np.flatnonzero(counts).tolist())
    return [(times << BYTE_US_TWOS) // BYTE_US for times in sorted(found)]


def _hop_by_hop(table: Numbers, stages: Sequence[Stage], leader: Flow) -> None:
    """Fill the table with one running maximum a hop."""
    at_hop: dict[int, list[int]] = {}
    for row, stage in enumerate(stages):
        at_hop.setdefault(stage.hops, []).append(row)
    carried = [NEVER_US] * (max(at_hop) + 1)
    for part, service, until in services(leader.length, leader.left_out):
        lead = leader.end_us[part] - until
        for hop in range(len(carried)):
            if hop:
                lead += service
                lead[0] = max(lead[0], carried[hop])
                np.maximum.accumulate(lead, out=lead)
                carried[hop] = lead[-1]
            for row in at_hop.get(hop, ()):
                ends = np.add(lead, until, out=table[row, part])
                ends += stages[row].shift_us


def _length_by_length(
    table: Numbers, stages: Sequence[Stage], *, leader: Flow, lengths: Sequence[int]
) -> None:
    """Fill the table with one running maximum a length, and none a hop."""
    latest: NDArray[np.int64] = np.empty((len(lengths), min(BLOCK, table.shape[1])), np.int64)
    spare = np.empty_like(latest[0])
    carried = [NEVER_US] * len(lengths)
    for part, service, until in services(leader.length, leader.left_out):
        lead = leader.end_us[part] - until
        columns = latest[:, : lead.size]
        for kind, column in enumerate(columns):
            column.fill(carried[kind])
            np.copyto(column, lead, where=service == lengths[kind] * BYTE_US)
            np.maximum.accumulate(column, out=column)
            carried[kind] = column[-1]
            np.add(column, until, out=column)
        for row, stage in enumerate(stages):
            later = [stage.hops * BYTE_US * length + stage.shift_us for length in lengths]
            ends = np.add(columns[0], later[0], out=table[row, part])
            for column, us in zip(columns[1:], later[1:], strict=True):
                np.maximum(ends, np.add(column, us, out=spare[: lead.size]), out=ends)
