"""A run: a sending is played through the rig, and every unit says what it made of it.

Many sendings are played in one go, each as if the rig had been at rest before.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain, pairwise
from typing import NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

from thruline.rig.unit import Unit
from thruline.timing.batch import Played, play_many
from thruline.timing.flow import Flow
from thruline.timing.play import play
from thruline.timing.receive import Arrival, Listener, Reception, listener_of, receive
from thruline.timing.roads import Roads
from thruline.timing.sending import Sending, ready_times
from thruline.timing.statuses import FIRST_SYSTEM
from thruline.timing.traffic import batch, traffic


class Heard(NamedTuple):
    """A message that reached a unit: its place in the sending, and when it arrived."""

    place: int
    arrival: Arrival


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One sending through the whole rig.

    `heard` holds for every unit the messages on a channel it listens to, in the order of their
    arrival; `receptions` what it made of them, fate by fate in the same order. `lost` are places in
    the sending of messages that some full buffer on the way had no room for.
    """

    sending: Sending
    heard: Mapping[str, tuple[Heard, ...]]
    receptions: Mapping[str, Reception]
    lost: tuple[int, ...]

    @property
    def right_us(self) -> int:
        """When the last unit is right; 0 when nothing had to change."""
        return max((one.right_us or 0 for one in self.receptions.values()), default=0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Hand:
    """How the controller hands messages to its outputs."""

    gap_us: int
    running_status: bool


def listeners_of(units: Iterable[Unit]) -> tuple[Listener, ...]:
    """The units that act on channel messages, as listeners."""
    return tuple(listener_of(unit) for unit in units if unit.chart.listens)


Rows: TypeAlias = list[tuple[int, int, int]]
"""Messages on one line: place in the sending, start and end in us."""

Hear: TypeAlias = Callable[[Listener, Rows, Sequence[bytes]], tuple[tuple[Heard, ...], Reception]]
"""Anything that does what `hear` does."""


def hear(
    listener: Listener, rows: Rows, data: Sequence[bytes]
) -> tuple[tuple[Heard, ...], Reception]:
    """What a unit hears of a sending, and what it makes of it; `data` are all its messages."""
    heard = [Heard(place, Arrival(start, end, data[place])) for place, start, end in rows]
    return tuple(heard), receive(listener, [one.arrival for one in heard])


def run_all(
    roads: Roads,
    listeners: Sequence[Listener],
    *,
    sendings: Sequence[Sending],
    hand: Hand,
    hears: Hear = hear,
) -> tuple[Run, ...]:
    """Every sending through the rig, each by itself, as all units hear it (see `listeners_of`).

    `hears` stands in for `hear`, to keep what it gave.
    """
    if not sendings:
        return ()
    if not roads.starts:
        return tuple(_run(listeners, one, {}, hears=hears) for one in sendings)
    times = [
        ready_times(one.items, gap_us=hand.gap_us, running_status=hand.running_status)
        for one in sendings
    ]
    played = _play(roads, sendings, times)
    heard = {one.unit.id: _heard_in_all(played, roads, one) for one in listeners}
    runs = []
    for number, sending in enumerate(sendings):
        if played.might_lose[number]:
            runs.append(_exactly(roads, listeners, sending, times=times[number], hears=hears))
        else:
            rows = {unit: found[number] for unit, found in heard.items()}
            runs.append(_run(listeners, sending, rows, hears=hears))
    return tuple(runs)


def run_one(roads: Roads, listeners: Sequence[Listener], sending: Sending, *, hand: Hand) -> Run:
    """One sending through the rig."""
    return run_all(roads, listeners, sendings=[sending], hand=hand)[0]


def _play(roads: Roads, sendings: Sequence[Sending], times: Sequence[Sequence[int]]) -> Played:
    width = max((len(sending.items) for sending in sendings), default=0) or 1
    shape = (len(sendings), width)
    ready, length = np.zeros(shape, np.int64), np.zeros(shape, np.int64)
    status = np.full(shape, 0x80, np.int64)
    for row, (sending, moments) in enumerate(zip(sendings, times, strict=True)):
        count = len(sending.items)
        ready[row, :count] = moments
        length[row, :count] = [len(item.data) for item in sending.items]
        status[row, :count] = [item.data[0] for item in sending.items]
    return play_many(roads.network, [batch(ready, length, status=status)])


def _heard_in_all(played: Played, roads: Roads, listener: Listener) -> list[Rows]:
    """For each sending the messages that a unit listens to, from all its inputs."""
    ears = np.array([heard is not False for heard in listener.hears])
    count = played.might_lose.size
    by_line = [
        _heard_on_line(played, line, ears=ears, count=count)
        for line in roads.inputs[listener.unit.id]
    ]
    if len(by_line) == 1:
        return by_line[0]
    return [sorted(chain(*each), key=_end) for each in zip(*by_line, strict=True)] or [
        [] for _ in range(count)
    ]


def _heard_on_line(played: Played, line: int, *, ears: NDArray[np.bool_], count: int) -> list[Rows]:
    """For each sending the messages of one line that a unit listens to."""
    flow = played.flows[line]
    chosen = np.flatnonzero(ears[flow.status & 0x0F] & (flow.status < FIRST_SYSTEM))
    which, place = np.divmod(flow.ident[chosen], played.widths[0])
    begin = which * played.pitch_us
    start, end = flow.start_us[chosen] - begin, flow.end_us[chosen] - begin
    rows = list(zip(place.tolist(), start.tolist(), end.tolist(), strict=True))
    cuts = np.searchsorted(which, np.arange(count + 1)).tolist()  # one sending after the other
    return [rows[first:last] for first, last in pairwise(cuts)]


def _end(row: tuple[int, int, int]) -> int:
    return row[2]


def _exactly(
    roads: Roads,
    listeners: Sequence[Listener],
    sending: Sending,
    *,
    times: Sequence[int],
    hears: Hear,
) -> Run:
    """A sending by itself, with what full buffers lose."""
    sent = traffic(
        times,
        [len(item.data) for item in sending.items],
        status=[item.data[0] for item in sending.items],
    )
    flows = play(roads.network, [sent])
    lost = {place for flow in flows if flow.lost is not None for place in flow.lost.ident.tolist()}
    rows = {one.unit.id: _heard_in_one(flows, roads, one) for one in listeners}
    return _run(listeners, sending, rows, hears=hears, lost=tuple(sorted(lost)))


def _heard_in_one(flows: Sequence[Flow], roads: Roads, listener: Listener) -> Rows:
    """The messages that a unit listens to, from all its inputs."""
    rows: Rows = []
    for line in roads.inputs[listener.unit.id]:
        flow = flows[line]
        columns = (flow.status, flow.ident, flow.start_us, flow.end_us)
        for status, *row in zip(*(one.tolist() for one in columns), strict=True):
            if status < FIRST_SYSTEM and listener.hears[status & 0x0F] is not False:
                rows.append((row[0], row[1], row[2]))
    return sorted(rows, key=_end)


def _run(
    listeners: Sequence[Listener],
    sending: Sending,
    rows: Mapping[str, Rows],
    *,
    hears: Hear,
    lost: tuple[int, ...] = (),
) -> Run:
    """What every listening unit makes of what it hears."""
    data = [item.data for item in sending.items]
    heard, receptions = {}, {}
    for one in listeners:
        unit = one.unit.id
        heard[unit], receptions[unit] = hears(one, rows.get(unit, []), data)
    return Run(sending=sending, heard=heard, receptions=receptions, lost=lost)
