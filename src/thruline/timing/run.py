"""A run: a sending is played through the rig, and every unit says what it made of it.

Many sendings are played in one go, each as if the rig had been at rest before.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple, TypeAlias

import numpy as np

from thruline.rig.unit import Unit
from thruline.timing.batch import Played, play_many
from thruline.timing.flow import Flow
from thruline.timing.play import play
from thruline.timing.receive import Arrival, Listener, Reception, listener_of, receive
from thruline.timing.roads import Roads
from thruline.timing.sending import Sending
from thruline.timing.statuses import FIRST_SYSTEM
from thruline.timing.tables import Tables, tables_of
from thruline.timing.traffic import Numbers, Positions, Truths, batch, traffic


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


NOTHING: Numbers = np.zeros((0, 4), np.int64)
"""Of no message at all."""
END = 2
"""The column of ends."""

Came: TypeAlias = Numbers
"""Messages that came to a unit, a row each: place in the sending, start and end in us, and code
(see `Tables`)."""

Hear: TypeAlias = Callable[[Listener, Came, Sending], tuple[tuple[Heard, ...], Reception]]
"""Anything that does what `hear` does."""


def hear(listener: Listener, came: Came, sending: Sending) -> tuple[tuple[Heard, ...], Reception]:
    """What a unit hears of a sending, and what it makes of it."""
    items = sending.items
    heard = [
        Heard(place, Arrival(start, end, items[place].data))
        for place, start, end, _ in came.tolist()
    ]
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
    tables = tables_of(sendings, gap_us=hand.gap_us, running_status=hand.running_status)
    played = play_many(roads.network, [batch(tables.ready_us, tables.length, status=tables.status)])
    came = {one.unit.id: _came_in_all(played, tables, roads, one) for one in listeners}
    runs = []
    for number, sending in enumerate(sendings):
        if played.might_lose[number]:
            row = Tables(*(table[number : number + 1] for table in tables))
            runs.append(_exactly(roads, listeners, sending, tables=row, hears=hears))
        else:
            found = {unit: each[number] for unit, each in came.items()}
            runs.append(_run(listeners, sending, found, hears=hears))
    return tuple(runs)


def run_one(roads: Roads, listeners: Sequence[Listener], sending: Sending, *, hand: Hand) -> Run:
    """One sending through the rig."""
    return run_all(roads, listeners, sendings=[sending], hand=hand)[0]


def _came_in_all(
    played: Played, tables: Tables, roads: Roads, listener: Listener
) -> Sequence[Came]:
    """For each sending the messages that a unit listens to, from all its inputs."""
    ears = _ears(listener)
    by_line = [
        _came_on_line(played, line, tables=tables, ears=ears)
        for line in roads.inputs[listener.unit.id]
    ]
    if len(by_line) == 1:
        return by_line[0]
    return [_by_end(each) for each in zip(*by_line, strict=True)] or [NOTHING] * len(tables.length)


def _ears(listener: Listener) -> Truths:
    return np.array([heard is not False for heard in listener.hears])


def _listened_to(flow: Flow, ears: Truths) -> Positions:
    """Where in a flow the channel messages stand that a unit listens to."""
    return np.flatnonzero(ears[flow.status & 0x0F] & (flow.status < FIRST_SYSTEM))


def _came_on_line(played: Played, line: int, *, tables: Tables, ears: Truths) -> list[Came]:
    """For each sending the messages of one line that a unit listens to."""
    flow = played.flows[line]
    chosen = _listened_to(flow, ears)
    ident = flow.ident[chosen]
    which, place = np.divmod(ident, played.widths[0])
    begin = which * played.pitch_us
    start, end = flow.start_us[chosen] - begin, flow.end_us[chosen] - begin
    came = np.column_stack((place, start, end, tables.code.ravel()[ident]))
    cuts = np.searchsorted(which, np.arange(len(tables.length) + 1)).tolist()
    return [came[first:last] for first, last in pairwise(cuts)]  # one sending after the other


def _by_end(parts: Sequence[Came]) -> Came:
    """What came by several inputs, by the end of each message."""
    came = np.concatenate(parts)
    return came[np.argsort(came[:, END], kind="stable")]


def _exactly(
    roads: Roads,
    listeners: Sequence[Listener],
    sending: Sending,
    *,
    tables: Tables,
    hears: Hear,
) -> Run:
    """A sending by itself, with what full buffers lose; `tables` hold it alone."""
    there = tables.length[0] > 0
    ready, length, status, code = (table[0][there] for table in tables)
    flows = play(roads.network, [traffic(ready, length, status=status)])
    lost = {place for flow in flows if flow.lost is not None for place in flow.lost.ident.tolist()}
    came = {
        one.unit.id: _by_end([_came_alone(flows[line], code, _ears(one)) for line in lines])
        for one in listeners
        if (lines := roads.inputs[one.unit.id])
    }
    return _run(listeners, sending, came, hears=hears, lost=tuple(sorted(lost)))


def _came_alone(flow: Flow, code: Numbers, ears: Truths) -> Came:
    """The messages of one line that a unit listens to."""
    chosen = _listened_to(flow, ears)
    place = flow.ident[chosen]
    return np.column_stack((place, flow.start_us[chosen], flow.end_us[chosen], code[place]))


def _run(
    listeners: Sequence[Listener],
    sending: Sending,
    came: Mapping[str, Came],
    *,
    hears: Hear,
    lost: tuple[int, ...] = (),
) -> Run:
    """What every listening unit makes of what it hears."""
    heard, receptions = {}, {}
    for one in listeners:
        unit = one.unit.id
        heard[unit], receptions[unit] = hears(one, came.get(unit, NOTHING), sending)
    return Run(sending=sending, heard=heard, receptions=receptions, lost=lost)
