"""Messages of which nobody can tell what becomes of them, and what they may have changed."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from thruline.rig.chart import Chart
from thruline.timing.fate import Fate
from thruline.timing.receive import DATA_LSB, DATA_MSB, Arrival

PROGRAM_CHANGE, CONTROL_CHANGE = 0xC0, 0xB0
IN_DOUBT = frozenset({Fate.CANNOT_TELL, Fate.HALF})
"""Fates of messages of which nobody can tell what they do. What half a pair does depends on the
other half, which some earlier preset has left."""


@dataclass(frozen=True, slots=True)
class Doubts:
    """Controls, by id, and whether also the program, of which nobody can tell how they are left."""

    controls: frozenset[str]
    program: bool = False

    def joined(self, other: "Doubts") -> "Doubts":
        """What either leaves in doubt."""
        return Doubts(self.controls | other.controls, program=self.program or other.program)


def doubts_of(chart: Chart, arrivals: Iterable[Arrival], fates: Sequence[Fate]) -> Doubts:
    """What a unit's arrivals leave in doubt; `fates` stand in the same order.

    A program change that may have been obeyed puts all of the unit in doubt, for the unit may also
    have been deaf while it loaded. A control change leaves its controls in doubt until the next one
    that is surely obeyed.
    """
    controls: set[str] = set()
    for arrival, fate in zip(arrivals, fates, strict=True):
        kind = arrival.data[0] & 0xF0
        if fate is Fate.CANNOT_TELL and kind == PROGRAM_CHANGE:
            return Doubts(frozenset(chart.controls), program=True)
        if kind == CONTROL_CHANGE and fate in IN_DOUBT:
            controls |= concerned(chart, arrival.data[1])
        elif kind == CONTROL_CHANGE and fate.is_good:
            controls -= concerned(chart, arrival.data[1])
    return Doubts(frozenset(controls))


def concerned(chart: Chart, number: int) -> frozenset[str]:
    """The controls that a control change of this number may reach."""
    readings = chart.readings
    if number in readings.plain:
        return frozenset(one.control.id for one in readings.plain[number])
    if number in (DATA_MSB, DATA_LSB):
        return frozenset(control.id for control in readings.parameters.values())
    return frozenset()
