"""Which units are worth looking at together after one press: all, a line of them, spots along it.

Looking at a few says nearly as much as looking at all, and in less time: the ends of all lines tell
which line is dead, every third unit of a line in which part of it.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TypeAlias

from thruline.find.meant import Meant
from thruline.path.network import Network

Line: TypeAlias = tuple[str, ...]
"""Units in the order in which messages reach them, none of which feeds more than one other."""
MOST_SPOTS = 4
"""Spots along a line at most; more are hardly quicker to look at than the whole."""
MOST_PARTS = 3
"""Parts that a line is looked at in."""


def glances(meant: Meant, number: int) -> tuple[tuple[str, ...], ...]:
    """What to look at together after a press: first every unit that it changes, then some of them.

    Each is in the order of the document.
    """
    units = tuple(unit for unit in meant.looked_at if number in meant.pressed_for(unit))
    found = [units]
    for some in _some(lines_of(meant.case.board.network, units)):
        chosen = tuple(unit for unit in units if unit in some)
        if 1 < len(chosen) < len(units) and chosen not in found:
            found.append(chosen)
    return tuple(found)


def _some(lines: Sequence[Line]) -> Iterator[frozenset[str]]:
    for count in range(1, MOST_SPOTS + 1):
        yield frozenset(unit for line in lines for unit in _spots(line, count))
    for line in lines:
        for count in range(1, MOST_PARTS + 1):
            cuts = [len(line) * n // count for n in range(count + 1)]
            yield from (frozenset(line[begin:end]) for begin, end in pairwise(cuts))


def _spots(line: Line, count: int) -> Iterator[str]:
    """The last unit of each of so many equal parts."""
    for n in range(1, count + 1):
        yield line[(len(line) * n + count - 1) // count - 1]


def lines_of(network: Network, units: Sequence[str]) -> tuple[Line, ...]:
    """Units put into lines, each ending where it branches; boxes that are none of them count not.

    A unit that messages reach in several ways stands behind the first of them. Units that only feed
    each other are in no line.
    """
    before = {unit: _before(network, unit, units) for unit in units}
    behind: dict[str | None, list[str]] = {}
    for unit, feeder in before.items():
        behind.setdefault(feeder, []).append(unit)
    lines = []
    for unit, feeder in before.items():
        if feeder is not None and len(behind[feeder]) == 1:
            continue  # it goes on with the line of its feeder
        line = [unit]
        while len(after := behind.get(line[-1], [])) == 1 and after[0] not in line:
            line.append(after[0])
        lines.append(tuple(line))
    return tuple(lines)


def _before(network: Network, unit: str, units: Sequence[str]) -> str | None:
    """The nearest of these units that a unit’s messages pass, None where none does."""
    here, seen = unit, {unit}
    while True:
        links = [one for jack in network.inputs_of(here) for one in network.inputs[jack]]
        here = links[0].start.unit if links else ""
        if not here or here in seen:
            return None
        if here in units:
            return here
        seen.add(here)
