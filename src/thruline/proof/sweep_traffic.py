"""How much a pedal puts on the line while it moves."""

from collections.abc import Iterator
from dataclasses import dataclass

from thruline.base.address import Address
from thruline.base.measures import BYTES_PER_SECOND
from thruline.compose.goals import control_bytes
from thruline.proof.case import Case
from thruline.proof.pedals import input_of
from thruline.rig.cable import Jack
from thruline.rig.controller import PedalInput
from thruline.rig.sweep import Move, Sweep

PERCENT = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class Traffic:
    """Everything that one pedal moves on one preset."""

    jack: Jack
    preset: int
    able: PedalInput
    sweeps: tuple[Sweep, ...]

    @property
    def moves(self) -> tuple[Move, ...]:
        """All moves of all its sweeps."""
        return tuple(move for sweep in self.sweeps for move in sweep.moves)

    @property
    def bytes_a_value(self) -> int:
        """Bytes for one new value of every move, each with its status byte."""
        return sum(
            3 * len(tuple(control_bytes(move.control, move.control.high))) for move in self.moves
        )

    def percent(self, interval_ms: int) -> int:
        """How full the line is while the pedal moves all the time, in percent."""
        a_second = self.bytes_a_value * 1000 // interval_ms
        return a_second * PERCENT // BYTES_PER_SECOND


def busiest(case: Case) -> Iterator[Traffic]:
    """For each pedal the preset on which it moves most."""
    by_place: dict[tuple[Jack, int], list[Sweep]] = {}
    for sweep in case.rig.sweeps:
        for number in sweep.presets:
            by_place.setdefault((sweep.pedal, number), []).append(sweep)
    together: dict[tuple[Address, ...], Traffic] = {}
    for (jack, number), sweeps in by_place.items():
        places = tuple(sweep.address for sweep in sweeps)
        able = input_of(case.rig, sweeps[0])
        if able is not None and places not in together:
            together[places] = Traffic(jack=jack, preset=number, able=able, sweeps=tuple(sweeps))
    most: dict[Jack, Traffic] = {}
    for traffic in together.values():
        before = most.get(traffic.jack)
        if before is None or traffic.bytes_a_value > before.bytes_a_value:
            most[traffic.jack] = traffic
    yield from most.values()
