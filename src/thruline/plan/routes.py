"""Ways for cables on a board seen from above: around the units, with bends no tighter than allowed.

A cable leaves its socket straight on (or, with an angled plug, along the side of the unit), then
takes the shortest way from corner to corner. All in mm; x to the right, y from the back edge to the
player. A unit is turned clockwise about its left back corner.
"""

import heapq
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

GAP = 4.0
"""A cable keeps this far from what it passes, mm."""
EDGE = 0.01
"""What touches is not yet in the way, mm."""

Floats = NDArray[np.float64]


class Leaves(StrEnum):
    """How a cable leaves its plug; left and right as seen by whoever looks at the socket."""

    STRAIGHT = "straight"
    LEFT = "angled left"
    RIGHT = "angled right"


@dataclass(frozen=True, slots=True)
class Point:
    """A point on the board."""

    x: float
    y: float

    def moved(self, along: "Point", length: float) -> "Point":
        """The point so far away in a direction."""
        return Point(self.x + along.x * length, self.y + along.y * length)

    def distance(self, other: "Point") -> float:
        """How far another point is."""
        return math.hypot(other.x - self.x, other.y - self.y)


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A unit from above: left back corner, size, and turn in degrees."""

    x: float
    y: float
    width: float
    depth: float
    turn: float = 0

    def out(self, across: float, back: float) -> Point:
        """A point of the unit (across from its left, and from its back) on the board."""
        angle = math.radians(self.turn)
        cos, sin = math.cos(angle), math.sin(angle)
        return Point(self.x + across * cos - back * sin, self.y + across * sin + back * cos)

    def corners(self, gap: float) -> Iterator[Point]:
        """Its four corners, a gap away."""
        right, front = self.width + gap, self.depth + gap
        for across, back in ((-gap, -gap), (right, -gap), (right, front), (-gap, front)):
            yield self.out(across, back)


@dataclass(frozen=True, slots=True)
class Mouth:
    """Where a cable comes out: the point, and the direction straight away from the unit."""

    at: Point
    away: Point

    def sideways(self, leaves: Leaves) -> Point:
        """The direction in which the cable goes on from its plug."""
        if leaves is Leaves.STRAIGHT:
            return self.away
        left = Point(-self.away.y, self.away.x)
        return left if leaves is Leaves.LEFT else Point(-left.x, -left.y)


def mouth_of(box: Box, side: str, along: float) -> Mouth:
    """The mouth of a socket on a side, so far from the left or from the back.

    A socket on top is taken to lead to the back edge.
    """
    places = {
        "back": ((along, 0), (0, -1)),
        "top": ((along, 0), (0, -1)),
        "front": ((along, box.depth), (0, 1)),
        "left": ((0, along), (-1, 0)),
        "right": ((box.width, along), (1, 0)),
    }
    (across, back), (dx, dy) = places[side]
    at, beyond = box.out(across, back), box.out(across + dx, back + dy)
    return Mouth(at, Point(beyond.x - at.x, beyond.y - at.y))


@dataclass(frozen=True)  # without slots: the corners are worked out once, and kept
class Board:
    """Everything that stands in the way, and the corners that ways may turn at."""

    boxes: tuple[Box, ...]

    def room(self, mouth: Mouth, most: float) -> float:
        """How far it is free straight ahead of a mouth, up to `most`."""
        start = mouth.at.moved(mouth.away, EDGE * 2)
        near = [_entry(start, mouth.at.moved(mouth.away, most), box) for box in self.boxes]
        return min((most * share for share in near if share is not None), default=most)

    def way(self, start: Point, stop: Point) -> list[Point] | None:
        """The shortest way around everything; None when there is none."""
        if self.covers(start) or self.covers(stop):
            return None
        nodes = [start, stop, *self.turns]
        spots = np.array([(one.x, one.y) for one in nodes])
        return _shortest(nodes, spots, self.boxes)

    @cached_property
    def turns(self) -> tuple[Point, ...]:
        """Corners that a way may go round: those that no other unit stands on."""
        corners = (one for box in self.boxes for one in box.corners(GAP))
        return tuple(one for one in corners if not self.covers(one))

    def covers(self, point: Point) -> bool:
        """Whether a unit stands on a point."""
        return any(_is_inside(point, box) for box in self.boxes)


def length_of(way: Sequence[Point]) -> float:
    """The length of a way, corner to corner."""
    return sum(one.distance(other) for one, other in pairwise(way))


def turning(way: Sequence[Point]) -> float:
    """By how much a way turns in all, in radians."""
    return sum(
        abs(_angle(first, middle, last))
        for first, middle, last in zip(way, way[1:], way[2:], strict=False)
    )


def _angle(first: Point, middle: Point, last: Point) -> float:
    before = math.atan2(middle.y - first.y, middle.x - first.x)
    after = math.atan2(last.y - middle.y, last.x - middle.x)
    return math.remainder(after - before, math.tau)


def _is_inside(point: Point, box: Box) -> bool:
    """Whether a point is inside a box, and not just on its edge."""
    angle = math.radians(box.turn)
    right, down = point.x - box.x, point.y - box.y
    across = right * math.cos(angle) + down * math.sin(angle)
    along = down * math.cos(angle) - right * math.sin(angle)
    return EDGE < across < box.width - EDGE and EDGE < along < box.depth - EDGE


def _entry(start: Point, stop: Point, box: Box) -> float | None:
    """The share of the leg at which it enters a box; None when it does not."""
    legs = np.array([[start.x, start.y]]), np.array([[stop.x, stop.y]])
    enters, leaves = _clip(*legs, box)
    return float(max(0.0, enters[0])) if leaves[0] > enters[0] else None


def _clip(starts: Floats, stops: Floats, box: Box) -> tuple[Floats, Floats]:
    """For legs (rows), the shares at which each enters and leaves the inside of a box.

    A leg that misses it leaves before it enters.
    """
    angle = math.radians(box.turn)
    turned = np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
    here = (starts - (box.x, box.y)) @ turned
    step = (stops - starts) @ turned
    sizes = np.array([box.width, box.depth])
    with np.errstate(divide="ignore", invalid="ignore"):
        low, high = (EDGE - here) / step, (sizes - EDGE - here) / step
    level = np.abs(step) < EDGE * EDGE
    outside = (here <= EDGE) | (here >= sizes - EDGE)
    first = np.where(level, np.where(outside, 2.0, -1.0), np.minimum(low, high))
    last = np.where(level, np.where(outside, -1.0, 2.0), np.maximum(low, high))
    return np.maximum(first.max(axis=1), 0.0), np.minimum(last.min(axis=1), 1.0)


def _sees(spot: Floats, spots: Floats, boxes: Sequence[Box]) -> NDArray[np.bool_]:
    """Which spots can be reached from one without passing through a box."""
    free = np.ones(len(spots), dtype=bool)
    starts = np.broadcast_to(spot, spots.shape)
    for box in boxes:
        enters, leaves = _clip(starts, spots, box)
        free &= leaves <= enters
    return free


def _shortest(nodes: Sequence[Point], spots: Floats, boxes: Sequence[Box]) -> list[Point] | None:
    """From the first node to the second, the nearest first (A*)."""
    goal = spots[1]
    came: dict[int, int] = {}
    so_far = {0: 0.0}
    open_now = [(float(np.hypot(*(goal - spots[0]))), 0)]
    done: set[int] = set()
    while open_now:
        _, here = heapq.heappop(open_now)
        if here == 1:
            return _back(came, nodes)
        if here in done:
            continue
        done.add(here)
        for there in np.flatnonzero(_sees(spots[here], spots, boxes)).tolist():
            length = so_far[here] + float(np.hypot(*(spots[there] - spots[here])))
            if there not in done and length < so_far.get(there, math.inf):
                so_far[there], came[there] = length, here
                heapq.heappush(open_now, (length + float(np.hypot(*(goal - spots[there]))), there))
    return None


def _back(came: dict[int, int], nodes: Sequence[Point]) -> list[Point]:
    trail = [1]
    while trail[-1] != 0:
        trail.append(came[trail[-1]])
    return [nodes[number] for number in reversed(trail)]
