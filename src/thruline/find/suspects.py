"""Everything that may be wrong with one rig, each with its odds before anyone has looked."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType

from thruline.find.cable_suspects import cable_suspects
from thruline.find.kinds import ROWS, Kind
from thruline.find.meant import Meant
from thruline.find.memory_suspects import memory_suspects
from thruline.find.pedal_suspects import loop_suspects, pedal_suspects
from thruline.find.power_suspects import power_suspects
from thruline.find.suspect import Suspect
from thruline.find.unit_suspects import unit_suspects

NO_COUNTS: Mapping[str, float] = MappingProxyType({})
WEIGHT = 4.0
"""How many cases of a workshop outweigh the odds of the table by half."""
TOOL = "computer"


def suspects_of(meant: Meant, counts: Mapping[str, float] = NO_COUNTS) -> tuple[Suspect, ...]:
    """All suspects of a rig.

    `counts` is how often a suspect (by its id) or a kind was the culprit in earlier cases; a count
    for the very suspect weighs as much as one for its kind among all that have it.
    """
    found = tuple(_all(meant))
    total = sum(counts.values())
    return tuple(replace(one, odds=_odds(one, counts, total)) for one in found)


def _all(meant: Meant) -> Iterator[Suspect]:
    yield from cable_suspects(meant)
    yield from unit_suspects(meant)
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


def _odds(suspect: Suspect, counts: Mapping[str, float], total: float) -> float:
    """The odds of the table, of the thing itself, and of what was counted."""
    odds = ROWS[suspect.kind].odds * suspect.odds
    if not total:
        return odds
    seen = counts.get(suspect.id, 0.0) + counts.get(suspect.kind, 0.0)
    return odds * (WEIGHT + len(Kind) * seen) / (WEIGHT + total)
