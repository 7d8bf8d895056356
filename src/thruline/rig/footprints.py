"""Units seen from above: the ground that each covers on the board.

All in mm; x to the right, y from the back edge to the player. A unit is turned clockwise about its
left back corner.
"""

import math
from collections.abc import Iterator, Sequence
from typing import TypeAlias

from thruline.rig.unit import Unit

Point: TypeAlias = tuple[float, float]
TOUCHES = 0.5
"""Less than this is no overlap yet, mm: places are written in whole millimetres."""


def corners_of(unit: Unit) -> tuple[Point, ...] | None:
    """The four corners of a unit on the board; None where its place or its size is not known."""
    place, size = unit.place, unit.chart.size
    if place is None or size is None:
        return None
    angle = math.radians(place.turn)
    cos, sin = math.cos(angle), math.sin(angle)
    return tuple(
        (place.x + across * cos - back * sin, place.y + across * sin + back * cos)
        for across, back in ((0, 0), (size.width, 0), (size.width, size.depth), (0, size.depth))
    )


def overlap_mm(one: Sequence[Point], other: Sequence[Point]) -> float:
    """How far two rectangles reach into each other; 0 when they do not.

    They are apart if one of their sides has all of the one before it and all of the other behind.
    """
    least = math.inf
    for x, y in (*_sides(one), *_sides(other)):
        here = [x * px + y * py for px, py in one]
        there = [x * px + y * py for px, py in other]
        least = min(least, max(here) - min(there), max(there) - min(here))
    return least if least > TOUCHES else 0


def _sides(corners: Sequence[Point]) -> Iterator[Point]:
    """The directions of two sides that meet, each of length 1."""
    (x0, y0), *_ = corners
    for x, y in (corners[1], corners[-1]):
        length = math.hypot(x - x0, y - y0)
        yield (x - x0) / length, (y - y0) / length


def beyond_mm(corners: Sequence[Point], width: int, depth: int) -> tuple[float, float]:
    """How far a rectangle would have to move, to the right and to the player, to be on a board.

    0 where it is on it already. What is larger than the board ends up at its left back corner.
    """
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return _into(min(xs), max(xs), width), _into(min(ys), max(ys), depth)


def _into(low: float, high: float, room: int) -> float:
    if high - room > TOUCHES:
        return max(room - high, -low)
    return -low if -low > TOUCHES else 0
