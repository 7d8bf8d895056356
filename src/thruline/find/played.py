"""Sendings over a board: what reaches the inputs of each unit, whatever it makes of it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np

from thruline.path.network import Network
from thruline.rig.cable import Jack
from thruline.rig.whole import Rig
from thruline.timing.batch import of_sending, play_many
from thruline.timing.flow import Flow
from thruline.timing.play import play
from thruline.timing.receive import Arrival
from thruline.timing.roads import Roads
from thruline.timing.run import Hand
from thruline.timing.sending import Item, ready_times
from thruline.timing.shares import batches_of, traffic_of
from thruline.timing.traffic import Batch


@dataclass(frozen=True, slots=True)
class World:
    """A board with faults in it, plugged for a check: who hears whom, as lines to be played."""

    rig: Rig
    network: Network
    roads: Roads
    hand: Hand


@dataclass(slots=True)
class Played:
    """One sending over one board, looked up unit by unit.

    Of a batch, `within` are the places of this sending in the flow of each line; it begins at
    `begin_us`, and its first message is called `first`, of `cells` that each sender of it has.
    """

    world: World
    items: tuple[Item, ...]
    flows: tuple[Flow, ...]
    within: tuple[slice, ...] = ()
    begin_us: int = 0
    first: int = 0
    cells: int = 1 << 60
    _at: dict[str, tuple[Arrival, ...]] = field(default_factory=dict)

    def at(self, unit: str) -> tuple[Arrival, ...]:
        """What comes to the inputs of a unit, in the order of its arrival."""
        known = self._at.get(unit)
        if known is None:
            lines = self.world.roads.inputs.get(unit, ()) if self.flows else ()
            rows = [one for line in lines for one in self._on(line)]
            known = self._at[unit] = tuple(sorted(rows, key=lambda one: one.end_us))
        return known

    def is_idle(self, jack: Jack) -> bool:
        """Whether nothing passes a socket."""
        line = self.world.roads.line_of.get(jack)
        if line is None:
            return not self.at(jack.unit)
        return not self.flows or not self.flows[line].ident[self._within(line)].size

    def _within(self, line: int) -> slice:
        return self.within[line] if self.within else slice(None)

    def _on(self, line: int) -> Iterator[Arrival]:
        flow = self.flows[line]
        within = self._within(line)
        columns = (flow.ident[within], flow.start_us[within], flow.end_us[within])
        for ident, start, end in zip(*(one.tolist() for one in columns), strict=True):
            data = self.items[ident % self.cells - self.first].data
            yield Arrival(start - self.begin_us, end - self.begin_us, data)


def play_all(world: World, sendings: Sequence[tuple[Item, ...]]) -> list[Played]:
    """Every sending by itself, all in one go; those for which a buffer is too small one by one."""
    if not world.roads.starts or not any(sendings):
        return [Played(world, items, ()) for items in sendings]
    if len(sendings) == 1:
        return [_alone(world, sendings[0])]
    played = play_many(world.roads.network, _batches(world, sendings))
    width = played.widths[0]
    return [
        _alone(world, items)
        if played.might_lose[number]
        else Played(
            world,
            items,
            played.flows,
            tuple(of_sending(played, line, number) for line in range(len(played.flows))),
            number * played.pitch_us,
            number * width,
            len(sendings) * width,
        )
        for number, items in enumerate(sendings)
    ]


def _alone(world: World, items: tuple[Item, ...]) -> Played:
    times = _times(world, items)
    sent = traffic_of(world.roads, items, times)
    return Played(world, items, play(world.roads.network, sent) if items else ())


def _times(world: World, items: tuple[Item, ...]) -> list[int]:
    hand = world.hand
    return ready_times(items, gap_us=hand.gap_us, running_status=hand.running_status)


def _batches(world: World, sendings: Sequence[tuple[Item, ...]]) -> list[Batch]:
    shape = (len(sendings), max(len(items) for items in sendings))
    ready, length = np.zeros(shape, np.int64), np.zeros(shape, np.int64)
    status = np.full(shape, 0x80, np.int64)
    for row, items in enumerate(sendings):
        count = len(items)
        ready[row, :count] = _times(world, items)
        length[row, :count] = [len(one.data) for one in items]
        status[row, :count] = [one.data[0] for one in items]
    return batches_of(world.roads, sendings, ready_us=ready, length=length, status=status)
