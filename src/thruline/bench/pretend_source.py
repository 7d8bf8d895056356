"""What a pretend controller hands to its outputs at each step, its mistakes included."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from thruline.audit.build import build, parts_in
from thruline.audit.fault import Family, Fault
from thruline.audit.meant import NO_KEY, Meant, Rows, meant_by
from thruline.compose.goals import control_bytes
from thruline.midi.specs import KIND_OF_STATUS
from thruline.rig.sweep import POSITIONS, Move, values_of
from thruline.timing.sending import Item, Purpose

SYSTEM = 0xF
"""The kind of messages that are for no channel."""
PEDAL_MS = 10
"""Between two values of a pedal, where the controller's chart does not say."""
ON_THE_WAY = (Family.SHUT, Family.SWALLOWED)
"""Mistakes that are not the controller's."""


class Source:
    """The controller: what it sends at every step, in its order and with its pauses.

    It remembers where each pedal was left, for controllers that send that at a recall.
    """

    def __init__(self, meant: Meant, faults: Sequence[Fault]) -> None:
        roads = meant.case.board.roads
        jacks = {line: str(jack) for jack, line in roads.line_of.items()}
        own = [jacks[line] for line in roads.starts][:1]
        self._meant = meant_by(meant.case, own, before=meant.before)
        mine = [one for one in faults if one.family not in ON_THE_WAY]
        everything = np.ones(len(meant.steps), np.bool_)
        keys = build(self._meant, mine, everything)
        self._by_step: dict[int, list[tuple[int, int]]] = {}
        for row in np.flatnonzero(keys != NO_KEY).tolist():
            key = int(keys[row])
            self._by_step.setdefault(parts_in(key)[0], []).append((row, key))
        self._places = dict.fromkeys(range(meant.presets, len(meant.steps)), 0)

    def step(self, step: int) -> Iterator[Item]:
        """What it sends when a person does a step."""
        if step >= self._meant.presets:
            yield from self._travel(step)
            return
        rows = self._meant.rows
        for row, key in self._by_step.get(step, ()):
            yield self._item(rows, row, key)
        for sweep in self._recalled(step):
            yield from self._at(sweep, self._places[sweep], {})

    def _item(self, rows: Rows, row: int, key: int) -> Item:
        """One message of a preset, as it is sent with the mistakes."""
        meant = self._meant
        case = meant.before if rows.old[row] and meant.before else meant.case
        number = meant.steps[int(rows.step[row])].preset
        preset = next(one for one in case.rig.presets if one.number == number)
        planned = case.run(preset).sending.items[int(rows.place[row])]
        _, _, _, status, first, second = parts_in(key)
        if status >> 4 == SYSTEM:
            return planned
        data = bytes((status, first, second & 0x7F))[: KIND_OF_STATUS[status].length]
        return planned._replace(data=data)

    def _recalled(self, step: int) -> Iterator[int]:
        """The sweeps whose pedal's place is sent when this preset is recalled."""
        rig, meant = self._meant.case.rig, self._meant
        pedals = rig.controller.chart.pedals if rig.controller else {}
        for place, sweep in enumerate(rig.sweeps):
            pedal = pedals.get(sweep.pedal.socket)
            if pedal is not None and pedal.on_recall and meant.steps[step].preset in sweep.presets:
                yield meant.presets + place

    def _travel(self, step: int) -> Iterator[Item]:
        """From heel to toe at the pace of the pedal's input; a value is sent when it changes."""
        rig = self._meant.case.rig
        sweep = rig.sweeps[step - self._meant.presets]
        pedals = rig.controller.chart.pedals if rig.controller else {}
        pedal = pedals.get(sweep.pedal.socket)
        pace_us = 1000 * ((pedal.interval_ms if pedal else None) or PEDAL_MS)
        sent: dict[int, int] = {}
        waited_us = 0
        for place in range(POSITIONS):
            for item in self._at(step, place, sent):
                yield item._replace(pause_us=waited_us)
                waited_us = 0
            waited_us += pace_us
        self._places[step] = POSITIONS - 1

    def _at(self, step: int, place: int, sent: dict[int, int]) -> Iterator[Item]:
        """The messages that bring every control to where a pedal stands; `sent` is what was."""
        sweep = self._meant.case.rig.sweeps[step - self._meant.presets]
        for number, move in enumerate(sweep.moves):
            found = self._changed(step, number)
            values = values_of(move)
            if found is None or not values:
                continue
            value = values[-1 - place] if found.is_turned else values[place]
            if sent.get(number) != value:
                sent[number] = value
                yield from _messages(move, value, found)

    def _changed(self, step: int, move: int) -> "_Sent | None":
        """A move with the mistakes; None when it is not sent at all."""
        rows = self._meant.rows
        for row, key in self._by_step.get(step, ()):
            if rows.place[row] == move:
                _, _, _, status, first, second = parts_in(key)
                planned = int(rows.second[row])
                turned = (planned & 0x7F) << 7 | planned >> 7
                numbers = {int(rows.first[row]): first}
                return _Sent(status & 0x0F, numbers, second == turned != planned)
        return None


class _Sent(NamedTuple):
    """How a move is sent: its channel, control numbers in place of others, heel for toe."""

    channel: int
    numbers: dict[int, int]
    is_turned: bool


def _messages(move: Move, value: int, sent: _Sent) -> Iterator[Item]:
    """The messages that give a moved control its value."""
    for number, byte in control_bytes(move.control, value):
        data = bytes((0xB0 | sent.channel, sent.numbers.get(number, number) & 0x7F, byte))
        yield Item(data, Purpose.CONTROL, move.unit, move.control.id)
