"""What was heard of a sending on real lines, beside what was computed of it.

When the switch was pressed nobody knows; so times are counted from the first message that came, as
if it had come when it was computed to.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from typing import NamedTuple

from thruline.timing.falls import Fall, Point
from thruline.timing.picture import Picture
from thruline.timing.trail import Trails


class Heard(NamedTuple):
    """A whole message that was heard at a tap; `at_us` is its last byte's, on the wall clock."""

    at_us: int
    tap: int
    data: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """A message of the plan at a tap, as computed and as heard; None where it is only one of them.

    Both times are us after the press, of the last byte.
    """

    tap: int
    message: int | None
    data: bytes
    computed_us: int | None
    heard_us: int | None

    @property
    def off_us(self) -> int | None:
        """How much later than computed it came."""
        if self.computed_us is None or self.heard_us is None:
            return None
        return self.heard_us - self.computed_us


class Tap(NamedTuple):
    """Where one listened: the line in the network, and the row of its unit in the picture."""

    line: int
    row: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Captured:
    """Pairs in the order of time, and what to draw: falls as heard, and points of strays."""

    pairs: tuple[Pair, ...]
    falls: tuple[Fall, ...]
    missing: tuple[Point, ...]
    strays: tuple[Point, ...]

    @property
    def last_us(self) -> int:
        """The last moment in it."""
        ends = [fall.points[-1].us for fall in self.falls]
        return max([0, *ends, *(point.us for point in (*self.missing, *self.strays))])


def captured_of(
    picture: Picture, trails: Trails, *, taps: Sequence[Tap], heard: Sequence[Heard]
) -> Captured:
    """What was heard held against a picture."""
    pairs = [
        pair
        for number, tap in enumerate(taps)
        for pair in _paired(trails, number, tap, [one for one in heard if one.tap == number])
    ]
    known = [one for one in pairs if one.off_us is not None]
    first = min(known, key=lambda one: one.heard_us or 0, default=None)
    begin_us = first.off_us if first is not None else min((one.at_us for one in heard), default=0)
    since = [
        one if one.heard_us is None else replace(one, heard_us=one.heard_us - (begin_us or 0))
        for one in pairs
    ]
    since.sort(key=_moment)
    return Captured(
        pairs=tuple(since),
        falls=tuple(fall for one in since for fall in _falls(picture, one)),
        missing=tuple(
            Point(taps[one.tap].row, one.computed_us)
            for one in since
            if one.computed_us is not None and one.heard_us is None
        ),
        strays=tuple(
            Point(taps[one.tap].row, max(0, one.heard_us))
            for one in since
            if one.computed_us is None and one.heard_us is not None
        ),
    )


def _moment(pair: Pair) -> int:
    return pair.computed_us if pair.computed_us is not None else pair.heard_us or 0


def _paired(trails: Trails, number: int, tap: Tap, heard: Sequence[Heard]) -> list[Pair]:
    """Messages of a line and what was heard of it, in the order that fits most of both."""
    flow = trails.flows[tap.line] if trails.flows else None
    idents = flow.ident.tolist() if flow is not None else []
    ends = flow.end_us.tolist() if flow is not None else []
    data = [trails.sending.items[ident].data for ident in idents]
    matcher = SequenceMatcher(None, data, [one.data for one in heard], autojunk=False)
    found = list[tuple[int | None, int | None]]()
    for tag, start, stop, low, high in matcher.get_opcodes():
        if tag == "equal":
            for place, other in zip(range(start, stop), range(low, high), strict=True):
                found.append((place, other))
            continue
        found += [(place, None) for place in range(start, stop)]
        found += [(None, other) for other in range(low, high)]
    return [
        Pair(
            tap=number,
            message=None if place is None else idents[place],
            data=heard[other].data if place is None and other is not None else data[place or 0],
            computed_us=None if place is None else int(ends[place]),
            heard_us=None if other is None else heard[other].at_us,
        )
        for place, other in found
    ]


def _falls(picture: Picture, pair: Pair) -> list[Fall]:
    """The falls of a message as computed, moved to where it was heard."""
    off_us = pair.off_us
    if off_us is None:
        return []
    return [
        replace(fall, points=tuple(Point(one.row, max(0, one.us + off_us)) for one in fall.points))
        for fall in picture.falls
        if fall.message == pair.message
    ]
