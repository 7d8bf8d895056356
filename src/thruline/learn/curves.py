"""Which curve a control was moved on: by the values that came, and by what moved beside it.

How fast a foot moves nobody knows, but a curve gives itself away by the values it leaves out, and
two controls on one pedal by the values that they have at the same moment.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from math import log
from statistics import median

from thruline.learn.travels import Point
from thruline.rig.sweep import POSITIONS, Curve, staircase

NAMED = ("linear", "audio", "late", "s")
STRAY = 0.03
"""Share of values that a curve cannot have, because bytes were damaged."""
CLEAR = 3.0
"""A curve is clear when it is this much likelier than the next, as a logarithm."""
GOOD_SHARE = 0.04
"""A curve whose values are off by more than this share of the range, in the middle, is another."""
SAMPLES = (0, 25, 50, 75, 100)
"""Travel in percent at which a curve of its own is written down."""


@dataclass(frozen=True, slots=True)
class Fitted:
    """A curve, and whether the capture shows it rather than leaves it open."""

    curve: Curve
    is_sure: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Travel:
    """All travels of one control: where it begins and ends, and the points of each."""

    heel: int
    toe: int
    passes: tuple[tuple[Point, ...], ...]


def fit_curves(travels: Sequence[Travel]) -> tuple[Fitted, ...]:
    """The curve of each control of one sweep; their passes stand in one order."""
    by_values = [_by_values(one) for one in travels]
    anchor = max(range(len(travels)), key=lambda at: by_values[at][1], default=None)
    found = []
    for place, travel in enumerate(travels):
        name, margin = by_values[place]
        if margin >= CLEAR:
            found.append(Fitted(Curve(name), is_sure=True))
        elif anchor is not None and by_values[anchor][1] >= CLEAR:
            model = travels[anchor]
            found.append(_beside(travel, model, Curve(by_values[anchor][0])))
        else:
            found.append(_at_even_pace(travel))
    return tuple(found)


def _by_values(travel: Travel) -> tuple[str, float]:
    """The likeliest curve by the values alone, and how much likelier than the next it is."""
    seen = [value for points in travel.passes for value in {one.value for one in points}]
    scores = []
    for name in NAMED:
        possible = frozenset(staircase(Curve(name), travel.heel, travel.toe))
        within = sum(value in possible for value in seen)
        score = within * log((1 - STRAY) / len(possible))
        scores.append((score + (len(seen) - within) * log(STRAY / POSITIONS), name))
    scores.sort(reverse=True)
    return scores[0][1], scores[0][0] - scores[1][0]


Paced = list[tuple[float, int]]
"""Places of the pedal (0 to 127) and the value that a control had there."""


def _beside(travel: Travel, model: Travel, curve: Curve) -> Fitted:
    """A control held against one whose curve is clear, pass by pass."""
    places = staircase(curve, model.heel, model.toe)
    pairs: Paced = []
    for points, others in zip(travel.passes, model.passes, strict=True):
        times = [one.at_us for one in others]
        for point in points:
            near = min(len(times) - 1, bisect_left(times, point.at_us)) if times else -1
            if near < 0:
                continue
            at = [place for place, value in enumerate(places) if value == others[near].value]
            if at:
                pairs.append((sum(at) / len(at), point.value))
    return _nearest(travel, pairs, is_sure=True)


def _at_even_pace(travel: Travel) -> Fitted:
    """A control by itself, as if the pedal had been moved at one pace."""
    pairs: Paced = []
    for points in travel.passes:
        out = points[: 1 + _turn(points, travel)]
        if len(out) < 2:
            continue
        begin, span = out[0].at_us, max(1, out[-1].at_us - out[0].at_us)
        pairs += [((one.at_us - begin) / span * (POSITIONS - 1), one.value) for one in out]
    return _nearest(travel, pairs, is_sure=False)


def _turn(points: Sequence[Point], travel: Travel) -> int:
    """Where a travel first gets nearest to the toe."""
    off = [abs(one.value - travel.toe) for one in points]
    return off.index(min(off)) if off else 0


def _nearest(travel: Travel, pairs: Paced, *, is_sure: bool) -> Fitted:
    """The named curve that lies nearest, or one of its own through what was seen."""
    if not pairs:
        return Fitted(Curve("linear"), is_sure=False)
    span = max(1, abs(travel.toe - travel.heel))
    errors = []
    for name in NAMED:
        steps = staircase(Curve(name), travel.heel, travel.toe)
        off = median(abs(steps[round(place)] - value) for place, value in pairs)
        errors.append((off / span, name))
    errors.sort(key=lambda one: (one[0], NAMED.index(one[1])))
    if errors[0][0] <= GOOD_SHARE or not is_sure:
        clear = len(errors) < 2 or errors[1][0] > 2 * errors[0][0] + 1 / span
        return Fitted(Curve(errors[0][1]), is_sure=is_sure and clear)
    return Fitted(Curve("points", _own_points(travel, pairs)), is_sure=is_sure)


def _own_points(travel: Travel, pairs: Paced) -> tuple[tuple[int, int], ...]:
    """Travel and share in percent through the values that were seen."""
    span = travel.toe - travel.heel
    found = []
    for percent in SAMPLES:
        place = percent / 100 * (POSITIONS - 1)
        near = sorted(pairs, key=lambda one: abs(one[0] - place))[:WITHIN]
        share = median((value - travel.heel) / span for _, value in near) if span else 0
        found.append((percent, round(100 * min(1.0, max(0.0, share)))))
    return ((0, 0), *found[1:-1], (100, 100))


WITHIN = 5
"""Values around a place that its share is taken from."""
