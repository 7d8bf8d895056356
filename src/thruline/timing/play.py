"""A network and its traffic in, a flow for every line out."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from thruline.base.errors import CannotUse
from thruline.timing import loss, room, tandem
from thruline.timing.arrivals import arrivals, only
from thruline.timing.flow import Flow, Lost
from thruline.timing.network import Copy, Network, Output
from thruline.timing.output import carry
from thruline.timing.traffic import Numbers, Sent, Traffic, sent_once


def play(network: Network, senders: Sequence[Traffic]) -> tuple[Flow, ...]:
    """What every line carries, and when: one flow a line, exact to the microsecond.

    `senders` are those that the outputs name by index. Raises CannotUse when there are too few.
    """
    check_senders(network, len(senders))
    return play_sent(network, sent_once(senders))


def check_senders(network: Network, count: int) -> None:
    """Raise CannotUse when the lines speak of more senders than there are."""
    if count < network.senders:
        raise CannotUse(f"the lines speak of {network.senders} senders, but {count} were given")


def play_sent(
    network: Network, sent: Sent, crowded: list[Numbers] | None = None
) -> tuple[Flow, ...]:
    """One flow a line.

    Where a buffer is too small, messages are lost exactly as `loss` says. With a list `crowded`,
    every buffer has endless room instead, and the list receives the positions in `sent` of the
    messages for which a real one might not have had it.
    """
    flows: dict[int, Flow] = {}
    for index in network.in_order:
        if index in flows:
            continue
        match network.lines[index]:
            case Copy(source=source, delay_us=delay):
                flows[index] = _copied(flows[source], delay)
            case Output() as output:
                flows[index] = _played(output, flows, sent=sent, crowded=crowded)
                if network.heard_by[index] and flows[index].byte_end_us is None:
                    _play_below(network, index, flows=flows, crowded=crowded)
    return tuple(flows[index] for index in range(len(network.lines)))


def _copied(flow: Flow, delay_us: int) -> Flow:
    """An electrical copy: every byte a moment later."""
    every = flow.byte_end_us
    return Flow(
        order=flow.order,
        left_out=flow.left_out,
        end_us=flow.end_us + delay_us,
        byte_end_us=None if every is None else every + delay_us,
    )


def _played(
    output: Output, flows: dict[int, Flow], *, sent: Sent, crowded: list[Numbers] | None
) -> Flow:
    """One output by itself, with what its buffer loses."""
    coming = arrivals(output, flows, sent)
    flow, short_of_room = carry(output, coming)
    if output.buffer_bytes is None or short_of_room.size == 0:
        return flow
    if crowded is not None:
        crowded.append(short_of_room)
        return flow
    allowed = loss.let_in(output, coming, output.buffer_bytes)
    flow, _ = carry(output, only(coming, np.flatnonzero(allowed)))
    lost = only(coming, np.flatnonzero(~allowed))
    return replace(flow, lost=Lost(lost.order.ident, lost.order.status, lost.ready_us))


def _play_below(
    network: Network, leader: int, *, flows: dict[int, Flow], crowded: list[Numbers] | None
) -> None:
    """Add the flows of all lines that carry just what the leader carries.

    A line whose buffer is too small is left out, with all below it, to be played by itself.
    """
    below = tandem.stages(network, leader, flows[leader])
    if not below:
        return
    for stage, end in zip(below, tandem.ends(below, flows[leader]), strict=True):
        if stage.source not in flows:
            continue
        later, buffer_bytes = _later(network, stage, end, flows=flows)
        short_of_room = room.crowded(later, buffer_bytes)
        if short_of_room.size and crowded is None:
            continue
        if crowded is not None:
            crowded.append(short_of_room)
        flows[stage.line] = later


def _later(
    network: Network, stage: tandem.Stage, end_us: Numbers, *, flows: dict[int, Flow]
) -> tuple[Flow, int | None]:
    """The flow of a stage whose ends are known, and the room of its buffer."""
    before = flows[stage.source]
    match network.lines[stage.line]:
        case Copy():
            return Flow(order=before.order, left_out=before.left_out, end_us=end_us), None
        case Output(feeds=feeds, buffer_bytes=buffer_bytes):
            later = Flow(
                order=before.order,
                left_out=before.left_out,
                end_us=end_us,
                came_us=before.end_us,
                latency_us=feeds[0].latency_us,
            )
            return later, buffer_bytes
