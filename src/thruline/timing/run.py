"""A sending through the rig: where each message is when, and what every unit makes of it.

Many sendings are played in one go, each as if the rig had been at rest before.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from thruline.rig.unit import Unit
from thruline.timing.batch import Played, play_many
from thruline.timing.flow import Flow
from thruline.timing.play import play
from thruline.timing.receive import Arrival, Reception, hears_channel, receive
from thruline.timing.roads import Roads
from thruline.timing.sending import Sending, ready_times
from thruline.timing.traffic import batch, traffic


@dataclass(frozen=True, slots=True)
class Heard:
    """A message that reached a unit: its place in the sending, and when it arrived."""

    index: int
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


def run_all(
    roads: Roads, units: Iterable[Unit], sendings: Sequence[Sending], hand: Hand
) -> tuple[Run, ...]:
    """Every sending through the rig, each by itself."""
    listeners = [unit for unit in units if unit.chart.listens]
    if not sendings:
        return ()
    if not roads.starts:
        return tuple(_silent(sending, listeners) for sending in sendings)
    times = [
        ready_times(one.items, gap_us=hand.gap_us, running_status=hand.running_status)
        for one in sendings
    ]
    played = _play(roads, sendings, times)
    ears = {unit.id: _ears(unit) for unit in listeners}
    flows = [_rows(played, index) for index in range(len(played.flows))]
    runs = []
    for number, sending in enumerate(sendings):
        if played.might_lose[number]:
            runs.append(_exactly(roads, listeners, sending, times=times[number], ears=ears))
            continue
        rows = [flow[number] for flow in flows]
        runs.append(_run(roads, listeners, sending, rows=rows, ears=ears, lost=()))
    return tuple(runs)


def run_one(roads: Roads, units: Iterable[Unit], sending: Sending, hand: Hand) -> Run:
    """One sending through the rig."""
    return run_all(roads, units, [sending], hand)[0]


_Rows = list[tuple[int, int, int]]
"""Messages on one line: place in the sending, start and end in us."""


def _play(roads: Roads, sendings: Sequence[Sending], times: Sequence[Sequence[int]]) -> Played:
    width = max(1, max(len(sending.items) for sending in sendings))
    shape = (len(sendings), width)
    ready, length = np.zeros(shape, np.int64), np.zeros(shape, np.int64)
    status = np.full(shape, 0x80, np.int64)
    for row, (sending, moments) in enumerate(zip(sendings, times, strict=True)):
        count = len(sending.items)
        ready[row, :count] = moments
        length[row, :count] = [len(item.data) for item in sending.items]
        status[row, :count] = [item.data[0] for item in sending.items]
    return play_many(roads.network, [batch(ready, length, status=status)])


def _rows(played: Played, line: int) -> list[_Rows]:
    """The messages on a line, sending by sending."""
    flow = played.flows[line]
    rows: list[_Rows] = [[] for _ in range(played.might_lose.size)]
    if played.sent.sending is None or flow.end_us.size == 0:
        return rows
    which = played.sent.sending[flow.order.which]
    begin = which * played.pitch_us
    columns = (flow.ident, flow.start_us - begin, flow.end_us - begin)
    for number, place, start, end in zip(
        which.tolist(), *(column.tolist() for column in columns), strict=True
    ):
        rows[number].append((place, start, end))
    return rows


def _ears(unit: Unit) -> frozenset[int]:
    """Status bytes of messages that a unit listens to, or may listen to."""
    return frozenset(
        status
        for status in range(0x80, 0xF0)
        if hears_channel(unit, (status & 0x0F) + 1) is not False
    )


def _exactly(
    roads: Roads,
    listeners: Sequence[Unit],
    sending: Sending,
    *,
    times: Sequence[int],
    ears: Mapping[str, frozenset[int]],
) -> Run:
    """A sending by itself, with what full buffers lose."""
    sent = traffic(
        times,
        [len(item.data) for item in sending.items],
        status=[item.data[0] for item in sending.items],
    )
    flows = play(roads.network, [sent])
    lost = {place for flow in flows if flow.lost is not None for place in flow.lost.ident.tolist()}
    rows = [_all_rows(flow) for flow in flows]
    return _run(roads, listeners, sending, rows=rows, ears=ears, lost=tuple(sorted(lost)))


def _all_rows(flow: Flow) -> _Rows:
    columns = (flow.ident, flow.start_us, flow.end_us)
    return list(zip(*(column.tolist() for column in columns), strict=True))


def _run(
    roads: Roads,
    listeners: Sequence[Unit],
    sending: Sending,
    *,
    rows: Sequence[_Rows],
    ears: Mapping[str, frozenset[int]],
    lost: tuple[int, ...],
) -> Run:
    """What every listening unit hears and makes of it."""
    data = [item.data for item in sending.items]
    heard = {}
    for unit in listeners:
        wanted = ears[unit.id]
        found = [
            Heard(place, Arrival(start, end, data[place]))
            for line in roads.inputs[unit.id]
            for place, start, end in rows[line]
            if data[place][0] in wanted
        ]
        if len(roads.inputs[unit.id]) > 1:
            found.sort(key=lambda one: one.arrival.end_us)
        heard[unit.id] = tuple(found)
    return Run(
        sending=sending,
        heard=heard,
        receptions={
            unit.id: receive(unit, [one.arrival for one in heard[unit.id]]) for unit in listeners
        },
        lost=lost,
    )


def _silent(sending: Sending, listeners: Sequence[Unit]) -> Run:
    """A controller without a MIDI output: nobody hears anything."""
    return Run(
        sending=sending,
        heard={unit.id: () for unit in listeners},
        receptions={unit.id: receive(unit, ()) for unit in listeners},
        lost=(),
    )
