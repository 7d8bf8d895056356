"""Who sends timing clock, and who hears whose."""

from collections.abc import Iterator

from thruline.path.hearing import Heard
from thruline.proof.case import Case
from thruline.rig.unit import Unit, sends

CLOCK = 0xF8
"""The status byte of timing clock (MIDI 1.0)."""


def clock_sources(case: Case) -> list[Unit]:
    """Units that send timing clock as they are set."""
    return [unit for unit in case.rig.units.values() if sends(unit, "clock")]


def clocks_heard(case: Case, unit: Unit) -> Iterator[tuple[Unit, Heard]]:
    """Every clock source, and whether the unit hears its clock."""
    for source in clock_sources(case):
        if source is not unit:
            yield source, case.hearing.hears(source.id, unit.id, status=CLOCK)
