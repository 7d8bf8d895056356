"""A run: a sending is played through the rig, and every unit says what it made of it.

Many sendings are played in one go, each as if the rig had been at rest before.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from types import MappingProxyType
from typing import NamedTuple, TypeAlias

import numpy as np

from thruline.rig.unit import Unit
from thruline.timing.batch import Played, play_many
from thruline.timing.flow import Flow
from thruline.timing.play import play
from thruline.timing.receive import Arrival, Listener, Reception, listener_of, receive
from thruline.timing.roads import Roads
from thruline.timing.sending import Sending
from thruline.timing.shares import batches_of, place_in_table, traffic_of
from thruline.timing.statuses import FIRST_SYSTEM
from thruline.timing.tables import Tables, tables_of
from thruline.timing.traffic import Numbers, Positions, Truths


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


ROW = 4
"""Numbers of a message that came: its place in the sending, start and end in us, and its code
(see `Tables`)."""
END = 2
"""The column of ends."""
NOTHING = b""
"""What came when nothing did."""

Came: TypeAlias = bytes
"""Messages of one sending that came to a unit, in the order of their ends: `ROW` integers of eight
bytes for each. Bytes, since what was made of the same ones before is looked up by them."""

Hear: TypeAlias = Callable[
    [Listener, Sequence[Came], Sequence[Sending]],
    Sequence[tuple[tuple[Heard, ...], Reception]],
]
"""Anything that does what `hear_all` does."""


def hear_all(
    listener: Listener, came: Sequence[Came], sendings: Sequence[Sending]
) -> list[tuple[tuple[Heard, ...], Reception]]:
    """What a unit hears of each sending, and what it makes of it."""
    return [hear(listener, each, sending) for each, sending in zip(came, sendings, strict=True)]


def hear(listener: Listener, came: Came, sending: Sending) -> tuple[tuple[Heard, ...], Reception]:
    """What a unit hears of one sending, and what it makes of it."""
    items = sending.items
    heard = [
        Heard(place, Arrival(start, end, items[place].data))
        for place, start, end, _ in np.frombuffer(came, np.int64).reshape(-1, ROW).tolist()
    ]
    return tuple(heard), receive(listener, [one.arrival for one in heard])


def run_all(
    roads: Roads,
    listeners: Sequence[Listener],
    *,
    sendings: Sequence[Sending],
    hand: Hand,
    hears: Hear = hear_all,
) -> tuple[Run, ...]:
    """Every sending through the rig, each by itself, as all units hear it (see `listeners_of`).

    `hears` stands in for `hear_all`, to keep what it gave.
    """
    if not sendings:
        return ()
    if not roads.starts:
        came = [[NOTHING] * len(sendings)] * len(listeners)
        return _runs(listeners, sendings, came, hears=hears)
    tables = tables_of(sendings, gap_us=hand.gap_us, running_status=hand.running_status)
    rows = [sending.items for sending in sendings]
    senders = batches_of(
        roads, rows, ready_us=tables.ready_us, length=tables.length, status=tables.status
    )
    played = play_many(roads.network, senders)
    came = [_came_in_all(played, tables, roads, one) for one in listeners]
    exactly: dict[int, tuple[int, ...]] = {}
    for number in np.flatnonzero(played.might_lose).tolist():
        row = Tables(*(table[number : number + 1] for table in tables))
        exactly[number], alone = _exactly(roads, listeners, sendings[number], tables=row)
        for each, found in zip(came, alone, strict=True):
            each[number] = found
    return _runs(listeners, sendings, came, hears=hears, lost=exactly)


def _runs(
    listeners: Sequence[Listener],
    sendings: Sequence[Sending],
    came: Sequence[Sequence[Came]],
    *,
    hears: Hear,
    lost: Mapping[int, tuple[int, ...]] = MappingProxyType({}),
) -> tuple[Run, ...]:
    """What every listening unit makes of what it hears; `came` unit by unit, `lost` by sending."""
    names = [one.unit.id for one in listeners]
    found = [hears(one, each, sendings) for one, each in zip(listeners, came, strict=True)]
    rows = zip(*found, strict=True) if found else [()] * len(sendings)
    runs = []
    for number, (sending, row) in enumerate(zip(sendings, rows, strict=True)):
        heard = dict(zip(names, [one[0] for one in row], strict=True))
        receptions = dict(zip(names, [one[1] for one in row], strict=True))
        away = lost.get(number, ())
        runs.append(Run(sending=sending, heard=heard, receptions=receptions, lost=away))
    return tuple(runs)


def run_one(roads: Roads, listeners: Sequence[Listener], sending: Sending, *, hand: Hand) -> Run:
    """One sending through the rig."""
    return run_all(roads, listeners, sendings=[sending], hand=hand)[0]


def _came_in_all(played: Played, tables: Tables, roads: Roads, listener: Listener) -> list[Came]:
    """For each sending the messages that a unit listens to, from all its inputs."""
    count = len(tables.length)
    lines = roads.inputs[listener.unit.id]
    if not lines:
        return [NOTHING] * count
    ears = _ears(listener)
    parts = [_came_on_line(played, line, tables=tables, ears=ears) for line in lines]
    which, came = parts[0]
    if len(parts) > 1:
        which = np.concatenate([one for one, _ in parts])
        came = np.concatenate([one for _, one in parts])
        order = np.lexsort((came[:, END], which))
        which, came = which[order], came[order]
    cuts = np.searchsorted(which, np.arange(count + 1)) * (ROW * came.itemsize)
    whole = came.tobytes()
    return [whole[first:last] for first, last in pairwise(cuts.tolist())]


def _ears(listener: Listener) -> Truths:
    return np.array([heard is not False for heard in listener.hears])


def _listened_to(flow: Flow, ears: Truths) -> Positions:
    """Where in a flow the channel messages stand that a unit listens to."""
    return np.flatnonzero(ears[flow.status & 0x0F] & (flow.status < FIRST_SYSTEM))


def _came_on_line(
    played: Played, line: int, *, tables: Tables, ears: Truths
) -> tuple[Numbers, Numbers]:
    """The messages of one line that a unit listens to, sending after sending.

    Of which sending each is, and their rows.
    """
    flow = played.flows[line]
    chosen = _listened_to(flow, ears)
    ident = place_in_table(flow.ident[chosen], tables.length.size)
    which, place = np.divmod(ident, played.widths[0])
    begin = which * played.pitch_us
    start, end = flow.start_us[chosen] - begin, flow.end_us[chosen] - begin
    return which, np.column_stack((place, start, end, tables.code.ravel()[ident]))


def _exactly(
    roads: Roads, listeners: Sequence[Listener], sending: Sending, *, tables: Tables
) -> tuple[tuple[int, ...], list[Came]]:
    """A sending by itself: what full buffers lose of it, and what comes to each unit.

    `tables` hold it alone.
    """
    there = tables.length[0] > 0
    ready, code = tables.ready_us[0][there], tables.code[0][there]
    flows = play(roads.network, traffic_of(roads, sending.items, ready))
    lost = {place for flow in flows if flow.lost is not None for place in flow.lost.ident.tolist()}
    came = [
        _by_end([_came_alone(flows[line], code, _ears(one)) for line in roads.inputs[one.unit.id]])
        for one in listeners
    ]
    return tuple(sorted(lost)), came


def _came_alone(flow: Flow, code: Numbers, ears: Truths) -> Numbers:
    """The messages of one line that a unit listens to."""
    chosen = _listened_to(flow, ears)
    place = flow.ident[chosen]
    return np.column_stack((place, flow.start_us[chosen], flow.end_us[chosen], code[place]))


def _by_end(parts: Sequence[Numbers]) -> Came:
    """What came by several inputs, by the end of each message."""
    if not parts:
        return NOTHING
    came = np.concatenate(parts)
    return came[np.argsort(came[:, END], kind="stable")].tobytes()
