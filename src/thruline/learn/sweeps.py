"""Which controls move together, from where to where, and on which presets."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import chain

from thruline.learn.curves import Fitted, Travel, fit_curves
from thruline.learn.travels import Moved, Point

SAME = 0.5
"""Travels that share at least this much of their controls are of one sweep."""
AT_LEAST = 2
"""A control that moved only once in many travels is no part of the sweep."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """What moved at once: the name if somebody said one, and the preset that was on (or None)."""

    serial: int
    name: str | None
    preset: int | None
    tracks: Mapping[Moved, tuple[Point, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedMove:
    """A control on a pedal: where it begins (heel), where it ends, and on which curve."""

    moved: Moved
    heel: int
    toe: int
    fitted: Fitted


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedSweep:
    """What one pedal does. `travels` is how often it was seen.

    `presets` are those on which it works as far as that was heard; `by_recall` says that recalls
    showed it, and that presets where it is silent are known.
    """

    name: str
    is_named: bool
    moves: tuple[LearnedMove, ...]
    presets: tuple[int, ...]
    by_recall: bool
    travels: int


@dataclass(slots=True)
class _Gathered:
    name: str | None
    seen: list[Seen] = field(default_factory=list)

    @property
    def controls(self) -> set[Moved]:
        return set(chain.from_iterable(one.tracks for one in self.seen))


def sweeps_of(
    seen: Sequence[Seen], recalled: Mapping[Moved, frozenset[int]]
) -> tuple[LearnedSweep, ...]:
    """The sweeps behind some travels. `recalled` are presets at whose recall a control came."""
    found: list[_Gathered] = []
    for one in seen:
        place = next((each for each in found if _belongs(one, each)), None)
        if place is None:
            place = _Gathered(one.name)
            found.append(place)
        place.seen.append(one)
    return tuple(_learned(gathered, number, recalled) for number, gathered in enumerate(found, 1))


def _belongs(one: Seen, gathered: _Gathered) -> bool:
    if one.name is not None and gathered.name is not None:
        return one.name.lower() == gathered.name.lower()
    mine, theirs = set(one.tracks), gathered.controls
    return len(mine & theirs) >= SAME * len(mine | theirs)


def _learned(
    gathered: _Gathered, number: int, recalled: Mapping[Moved, frozenset[int]]
) -> LearnedSweep:
    often = Counter(moved for one in gathered.seen for moved in one.tracks)
    least = AT_LEAST if len(gathered.seen) > AT_LEAST else 1
    controls = sorted(moved for moved, count in often.items() if count >= least)
    travels = [_travel(gathered.seen, moved) for moved in controls]
    fitted = fit_curves(travels)
    came = Counter(chain.from_iterable(recalled.get(moved, ()) for moved in controls))
    by_recall = {number for number, count in came.items() if 2 * count > len(controls)}
    while_on = {one.preset for one in gathered.seen if one.preset is not None}
    return LearnedSweep(
        name=gathered.name or f"Pedal {number}",
        is_named=gathered.name is not None,
        moves=tuple(
            LearnedMove(moved=moved, heel=travel.heel, toe=travel.toe, fitted=fit)
            for moved, travel, fit in zip(controls, travels, fitted, strict=True)
        ),
        presets=tuple(sorted(by_recall or while_on)),
        by_recall=bool(by_recall),
        travels=len(gathered.seen),
    )


def _travel(seen: Sequence[Seen], moved: Moved) -> Travel:
    """All passes of one control, and the ends on which most of them agree."""
    passes = [one.tracks.get(moved, ()) for one in seen]
    lows = [min(one.value for one in points) for points in passes if points]
    highs = [max(one.value for one in points) for points in passes if points]
    low, high = _usual(lows, min(lows)), _usual(highs, max(highs))
    rising = sum(_rises(points) for points in passes if points)
    heel, toe = (low, high) if 2 * rising >= len(lows) else (high, low)
    return Travel(heel=heel, toe=toe, passes=tuple(passes))


def _usual(values: Sequence[int], otherwise: int) -> int:
    """The value that comes most often; the outermost when none comes twice."""
    value, count = Counter(values).most_common(1)[0]
    return value if count > 1 else otherwise


def _rises(points: Sequence[Point]) -> bool:
    """Whether a travel begins at its low end. It begins at the heel: that is asked for."""
    values = [one.value for one in points]
    return values[0] - min(values) <= max(values) - values[0]
