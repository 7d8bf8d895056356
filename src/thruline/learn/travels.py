"""What a pedal moved while somebody travelled it, taken out of all else that came."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median
from typing import NamedTuple

from thruline.audit.travels import (
    CONTROL_STATUS,
    ENTRIES,
    FINE_ABOVE,
    SELECTORS,
    code_of_parameter,
)
from thruline.learn.parts import Message
from thruline.midi.message import ControlChange
from thruline.midi.parameters import NOTHING_SELECTED, Entry, Selection, hear

LEAST = 8
"""As many values of one control at one press are the travel of a pedal."""
DIFFERENT = 6
"""And as many of them must differ."""
ROUGH = 0.34
"""Half of the steps of a travel are smaller than this share of its range."""
WINDOW = 5
"""Values around each that it is held against, to tell a garbled one."""
FAR_LEAST, FAR_SHARE = 8, 0.12
"""A value this far from those around it is garbled: in steps, and as a share of the range."""
FINE_SHARE = 0.6
"""A fine half comes at least as often as this share of its coarse half."""


class Moved(NamedTuple):
    """A control that was moved: channel (0 to 15), its code, and if it is a 14-bit pair."""

    channel: int
    code: int
    is_pair: bool = False


class Point(NamedTuple):
    """A value of a control, and when it came."""

    at_us: int
    value: int


@dataclass(frozen=True, slots=True)
class Split:
    """The travels in some messages, and what is left of them."""

    tracks: Mapping[Moved, tuple[Point, ...]]
    rest: tuple[Message, ...]


@dataclass(slots=True)
class Track:
    """The values of one control, and the places of the messages that carried them."""

    points: list[Point]
    places: list[int]
    fine: int = 0


def split(messages: Sequence[Message]) -> Split:
    """Take the travels out."""
    whole = _paired(_tracks(messages))
    tracks = {moved: one for moved, one in whole if _is_travel(one.points)}
    taken = {place for one in tracks.values() for place in one.places}
    return Split(
        tracks={moved: tuple(_smooth(one.points)) for moved, one in tracks.items()},
        rest=tuple(one for place, one in enumerate(messages) if place not in taken),
    )


def reached(messages: Sequence[Message], pedals: Collection[Moved]) -> dict[Moved, Track]:
    """What some messages give to controls that pedals move, whether or not they travel."""
    tracks = _tracks(messages)
    found = {}
    for moved in pedals:
        track = tracks.get(Moved(moved.channel, moved.code))
        fine = tracks.get(Moved(moved.channel, moved.code + FINE_ABOVE)) if moved.is_pair else None
        if track is not None and fine is not None:
            joined = Track(_joined(track, fine) or track.points, [*track.places, *fine.places])
            found[moved] = joined
        elif track is not None:
            found[moved] = track
    return found


def _tracks(messages: Sequence[Message]) -> dict[Moved, Track]:
    """Every control change by what it reaches; selectors belong to what they select."""
    found: dict[Moved, Track] = {}
    selections: dict[int, Selection] = {}
    last: dict[int, Moved] = {}
    waiting: dict[int, list[int]] = {}
    for place, one in enumerate(messages):
        if one.data[0] & 0xF0 != CONTROL_STATUS:
            continue
        channel, number, value = one.data[0] & 0x0F, one.data[1], one.data[2]
        if number in SELECTORS:
            selections[channel], _ = hear(
                selections.get(channel, NOTHING_SELECTED), ControlChange(channel + 1, number, value)
            )
            waiting.setdefault(channel, []).append(place)
            continue
        selection = selections.get(channel, NOTHING_SELECTED)
        _, entered = hear(selection, ControlChange(channel + 1, number, value))
        moved = Moved(channel, number)
        if entered is not None and number in ENTRIES:
            moved = Moved(channel, code_of_parameter(entered.parameter))
        track = found.setdefault(moved, Track([], []))
        track.places += [place, *waiting.pop(channel, ())] if moved.code > 127 else [place]
        if entered is not None and entered.entry is Entry.FINE and track.points:
            track.fine += 1
            track.points[-1] = Point(one.at_us, track.points[-1].value & ~0x7F | value)
        else:
            coarse = value << 7 if entered is not None and number in ENTRIES else value
            track.points.append(Point(one.at_us, coarse))
        last[channel] = moved
    for channel, places in waiting.items():
        if channel in last and last[channel].code > 127:
            found[last[channel]].places += places  # the last value's closing selection
    return {moved: _narrow(moved, one) for moved, one in found.items()}


def _narrow(moved: Moved, track: Track) -> Track:
    """A parameter whose fine half never comes has values of seven bits."""
    if moved.code > 127 and not track.fine:
        track.points = [Point(one.at_us, one.value >> 7) for one in track.points]
    return track


def _paired(tracks: Mapping[Moved, Track]) -> Iterator[tuple[Moved, Track]]:
    """Coarse and fine halves of one control put together."""
    for moved, track in tracks.items():
        fine = tracks.get(Moved(moved.channel, moved.code + FINE_ABOVE))
        coarse = tracks.get(Moved(moved.channel, moved.code - FINE_ABOVE))
        if moved.code < FINE_ABOVE and fine is not None and _go_together(track, fine):
            places = sorted({*track.places, *fine.places})
            yield (
                Moved(moved.channel, moved.code, is_pair=True),
                Track(_joined(track, fine), places),
            )
        elif not (
            FINE_ABOVE <= moved.code < 2 * FINE_ABOVE
            and coarse is not None
            and _go_together(coarse, track)
        ):
            yield moved, track


def _go_together(coarse: Track, fine: Track) -> bool:
    """Whether a fine value comes right behind nearly every coarse one.

    Two that both travel by themselves are two controls: a fine half jumps. So are one that travels
    and a few values of the other, for one turned bit makes a coarse half's number of a fine one's.
    """
    is_rare = len(coarse.places) * LEAST < len(fine.places)
    if (is_rare or _is_travel(coarse.points)) and _is_travel(fine.points):
        return False
    behind = set(fine.places)
    right_behind = sum(1 for place in coarse.places if place + 1 in behind)
    return right_behind >= FINE_SHARE * len(coarse.places)


def _joined(coarse: Track, fine: Track) -> list[Point]:
    behind = dict(zip(fine.places, fine.points, strict=True))
    return [
        Point(point.at_us, point.value << 7 | behind[place + 1].value)
        for place, point in zip(coarse.places, coarse.points, strict=True)
        if place + 1 in behind
    ]


def _is_travel(points: Sequence[Point]) -> bool:
    values = [one.value for one in points]
    if len(values) < LEAST or len(set(values)) < DIFFERENT:
        return False
    steps = [abs(after - before) for before, after in pairwise(values)]
    return median(steps) <= ROUGH * (max(values) - min(values))


def _smooth(points: Sequence[Point]) -> Iterator[Point]:
    """The points without those that lie far from the ones around them."""
    values = [one.value for one in points]
    around = [
        median(values[max(0, place - WINDOW // 2) : place + WINDOW // 2 + 1])
        for place in range(len(values))
    ]
    far = max(FAR_LEAST, FAR_SHARE * (max(around) - min(around)))
    yield from (
        one for one, near in zip(points, around, strict=True) if abs(one.value - near) <= far
    )
