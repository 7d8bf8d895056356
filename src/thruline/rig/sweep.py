"""Sweeps: what an expression pedal moves, from heel to toe."""

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from thruline.base.address import Address, at, nth
from thruline.rig.cable import Jack
from thruline.rig.values import Control, NotUnderstood, Value, half_up

POSITIONS = 128
"""Pedal positions that a 7-bit controller can tell apart."""
SHAPES = ("linear", "audio", "late", "s")
"""The curves that have a name."""
NEAR = 0.01
"""How far points may lead from the curve that they stand for; a byte of 128 is 0.008 of the way."""


@dataclass(frozen=True, slots=True)
class Curve:
    """A named curve, or points of (travel, share) in percent for the name `points`."""

    name: str
    points: tuple[tuple[int, int], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """One control that a sweep moves."""

    unit: str
    control: Control
    heel: Value | NotUnderstood
    toe: Value | NotUnderstood
    curve: Curve
    occurrence: int = 1

    @property
    def entry(self) -> str:
        """What names the move in addresses: `delay>mix`."""
        return nth(f"{self.unit}>{self.control.id}", self.occurrence)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sweep:
    """What one pedal does on some presets (numbers, in document order)."""

    name: str
    pedal: Jack
    presets: tuple[int, ...]
    moves: tuple[Move, ...]
    occurrence: int = 1

    @property
    def address(self) -> Address:
        """Where the sweep stands in the document."""
        return at("sweep", nth(self.name, self.occurrence))

    def address_of(self, move: Move) -> Address:
        """Where one of its moves stands in the document."""
        return self.address.child("moves", move.entry)


def share(curve: Curve, travel: float) -> float:
    """The share of the way from heel to toe (0 to 1) at a travel of 0 to 1.

    `audio` is an exponential taper through 0.15 at half travel, `(b^x - 1) / (b - 1)` with
    `b = (1/0.15 - 1)^2`; `late` is the same mirrored; `s` is `3x^2 - 2x^3`.
    """
    match curve.name:
        case "audio":
            return _taper(travel)
        case "late":
            return 1 - _taper(1 - travel)
        case "s":
            return travel * travel * (3 - 2 * travel)
        case "points":
            return _between(curve.points, travel)
        case _:
            return travel


def _taper(travel: float) -> float:
    base = (1 / 0.15 - 1) ** 2
    return (math.pow(base, travel) - 1) / (base - 1)


def _between(points: tuple[tuple[int, int], ...], travel: float) -> float:
    """Straight lines between points; flat before the first and after the last."""
    at_percent = travel * 100
    if at_percent < points[0][0]:
        return points[0][1] / 100
    for (x0, y0), (x1, y1) in pairwise(points):
        if x0 <= at_percent < x1:
            return (y0 + (y1 - y0) * (at_percent - x0) / (x1 - x0)) / 100
    return points[-1][1] / 100


def as_points(curve: Curve) -> tuple[tuple[int, int], ...]:
    """Points in whole percents that follow a curve, each as far on as lines between them allow.

    The lines stay within `NEAR` of the curve at every percent of travel; where a percent is too
    coarse for that, each percent has its point. A curve of points gives its own.
    """
    if curve.points:
        return curve.points
    points = [_point(curve, 0)]
    while (last := points[-1])[0] < 100:
        far = last[0] + 1
        while far < 100 and _follows(curve, last, _point(curve, far + 1)):
            far += 1
        points.append(_point(curve, far))
    return tuple(points)


def _point(curve: Curve, percent: int) -> tuple[int, int]:
    return percent, half_up(share(curve, percent / 100) * 100)


def _follows(curve: Curve, start: tuple[int, int], stop: tuple[int, int]) -> bool:
    """Whether a straight line between two points stays near a curve."""
    return all(
        abs(_between((start, stop), percent / 100) - share(curve, percent / 100)) <= NEAR
        for percent in range(start[0] + 1, stop[0])
    )


def nearest_shape(curve: Curve) -> str:
    """The named curve that leads least far from a curve, over all pedal positions."""

    def farthest(name: str) -> float:
        travels = (place / (POSITIONS - 1) for place in range(POSITIONS))
        return max(abs(share(Curve(name), one) - share(curve, one)) for one in travels)

    return min(SHAPES, key=farthest)


@lru_cache(maxsize=4096)
def staircase(curve: Curve, heel: int, toe: int) -> tuple[int, ...]:
    """The wire value at each of the 128 pedal positions; the ends are exact."""
    steps = [
        heel + half_up(share(curve, place / (POSITIONS - 1)) * (toe - heel))
        for place in range(POSITIONS)
    ]
    return tuple(steps)


def values_of(move: Move) -> tuple[int, ...]:
    """The wire value of a move at each pedal position; empty when an end makes no sense."""
    if isinstance(move.heel, NotUnderstood) or isinstance(move.toe, NotUnderstood):
        return ()
    return staircase(move.curve, move.heel.wire, move.toe.wire)
