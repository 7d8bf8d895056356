"""The lines of a pretend rig: what comes to each tap of what the controller sends, and when."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any, NamedTuple

import numpy as np

from thruline.audit.build import KIND_OF_WHAT
from thruline.audit.fault import ALL, Family, Fault
from thruline.audit.meant import Meant, line_at
from thruline.timing.batch import play_many
from thruline.timing.flow import Flow
from thruline.timing.network import Network, Output, network
from thruline.timing.play import play
from thruline.timing.sending import Item, ready_times
from thruline.timing.shares import batches_of, traffic_of

STATUSES = 256


class Heard(NamedTuple):
    """A message at a tap: when its last byte was there, and the bytes that were on the wire."""

    at_us: int
    tap: int
    data: bytes


class Wire:
    """The network of a rig with its mistakes on the way, and where one listens."""

    def __init__(self, meant: Meant, faults: Sequence[Fault]) -> None:
        case = meant.case
        roads = case.board.roads
        self._hand, self._roads = case.board.hand, roads
        self._taps = [line_at(case.rig, roads, tap) for tap in meant.taps]
        self._kept = np.ones((len(meant.taps), STATUSES), np.bool_)
        self._network = roads.network
        for fault in faults:
            blocked = _blocked(meant, fault)
            if blocked.any():
                line = roads.line_of[meant.lines[fault.first]]
                self._network = _without(self._network, line, blocked)
                self._kept &= ~(meant.cut[fault.first] & blocked)

    def play(self, sendings: Sequence[Sequence[Item]]) -> list[list[Heard]]:
        """What is heard of each sending, made on an idle rig, in the order of its time."""
        hand, width = self._hand, max((len(items) for items in sendings), default=0) or 1
        shape = (len(sendings), width)
        ready, length = np.zeros(shape, np.int64), np.zeros(shape, np.int64)
        status = np.full(shape, 0x80, np.int64)
        for row, items in enumerate(sendings):
            times = ready_times(items, gap_us=hand.gap_us, running_status=hand.running_status)
            ready[row, : len(items)] = times
            length[row, : len(items)] = [len(item.data) for item in items]
            status[row, : len(items)] = [item.data[0] for item in items]
        played = play_many(
            self._network,
            batches_of(self._roads, sendings, ready_us=ready, length=length, status=status),
        )
        found: list[list[Heard]] = [[] for _ in sendings]
        for tap, line in enumerate(self._taps):
            for ident, heard in self._at(tap, played.flows[line]):
                row, place = divmod(ident % (len(sendings) * width), width)
                at_us = heard.at_us - row * played.pitch_us
                data = sendings[row][place].data[1 if heard.data else 0 :]
                if not played.might_lose[row]:
                    found[row].append(Heard(at_us, tap, data))
        for row in np.flatnonzero(played.might_lose).tolist():
            found[row] = self._exactly(sendings[row], ready[row])
        for one in found:
            one.sort(key=_moment)
        return found

    def _exactly(
        self, items: Sequence[Item], ready: np.ndarray[Any, np.dtype[np.int64]]
    ) -> list[Heard]:
        """A sending by itself, with what full buffers lose."""
        flows = play(self._network, traffic_of(self._roads, items, ready[: len(items)]))
        return [
            Heard(heard.at_us, tap, items[ident].data[1 if heard.data else 0 :])
            for tap, line in enumerate(self._taps)
            for ident, heard in self._at(tap, flows[line])
        ]

    def _at(self, tap: int, flow: Flow) -> Iterator[tuple[int, Heard]]:
        """What comes to a tap: which message, and when; a byte where its status was left out."""
        short = np.zeros(flow.ident.size, np.bool_) if flow.left_out is None else flow.left_out
        columns = (flow.ident, flow.end_us, flow.status, short)
        for ident, end_us, status, omits in zip(*(one.tolist() for one in columns), strict=True):
            if self._kept[tap, status]:
                yield ident, Heard(end_us, tap, bytes((status,)) if omits else b"")


def _blocked(meant: Meant, fault: Fault) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """The status bytes that a mistake on the way keeps back, at its line."""
    blocked = np.zeros(STATUSES, np.bool_)
    match fault.family:
        case Family.SHUT if fault.second == ALL:
            blocked[:] = True
        case Family.SHUT:
            kind = KIND_OF_WHAT[fault.second] << 4
            blocked[kind : kind + 16] = True
        case Family.SWALLOWED:
            own = int(meant.own[fault.first])
            blocked[[kind << 4 | own for kind in range(8, 15)]] = True
    return blocked


def _without(
    whole: Network, line: int, blocked: np.ndarray[tuple[int], np.dtype[np.bool_]]
) -> Network:
    """The network in which an output keeps these back.

    A copy of a line cannot: what it would keep back is left out where one listens.
    """
    output = whole.lines[line]
    if not isinstance(output, Output):
        return whole
    held = frozenset(np.flatnonzero(blocked).tolist())
    feeds = tuple(replace(feed, blocks=feed.blocks | held) for feed in output.feeds)
    lines = list(whole.lines)
    lines[line] = replace(output, feeds=feeds)
    return network(lines)


def _moment(heard: Heard) -> int:
    return heard.at_us
