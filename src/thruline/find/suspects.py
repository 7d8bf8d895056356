"""Everything that may be wrong with one rig, each with its odds before anyone has looked."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from thruline.find.cable_suspects import cable_suspects
from thruline.find.ear_suspects import ear_suspects
from thruline.find.experience import NO_EXPERIENCE, Experience
from thruline.find.kind_rows import ROWS
from thruline.find.kinds import Kind
from thruline.find.meant import Meant
from thruline.find.memory_suspects import memory_suspects
from thruline.find.pedal_suspects import loop_suspects, pedal_suspects
from thruline.find.power_suspects import power_suspects
from thruline.find.suspect import Suspect
from thruline.find.traffic_suspects import traffic_suspects
from thruline.find.unit_suspects import unit_suspects
from thruline.rig.unit import Unit

TOOL = "computer"


def suspects_of(meant: Meant, experience: Experience = NO_EXPERIENCE) -> tuple[Suspect, ...]:
    """All suspects of a rig, their odds moved by what earlier cases taught."""
    units = meant.rig.units
    return tuple(replace(one, odds=_odds(one, experience, units)) for one in _all(meant))


def _all(meant: Meant) -> Iterator[Suspect]:
    yield from cable_suspects(meant)
    yield from unit_suspects(meant)
    yield from ear_suspects(meant)
    yield from traffic_suspects(meant)
    yield from memory_suspects(meant)
    yield from power_suspects(meant)
    yield from pedal_suspects(meant)
    yield from loop_suspects(meant)
    yield Suspect(
        kind=Kind.TOOL_FAULT,
        on=TOOL,
        what=TOOL,
        shows=MappingProxyType({"loopback": "nothing"}),
    )


def _odds(suspect: Suspect, experience: Experience, units: Mapping[str, Unit]) -> float:
    """The odds of the table, of the thing itself, of its unit, and of what was seen before."""
    unit = units.get(suspect.on.partition(".")[0])
    of_unit = 1.0 if unit is None else unit.odds.get(suspect.kind, 1.0)
    odds = ROWS[suspect.kind].odds * suspect.odds * of_unit
    return experience.moved(odds, kind=suspect.kind.value, thing=suspect.id)
