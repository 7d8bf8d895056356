"""The way of every message of a sending as a line that falls through the stations, to its end."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from thruline.path.links import Link
from thruline.path.outcome import Quality
from thruline.path.silence import why_silent
from thruline.timing.ending import (
    NOBODY,
    UNJUDGED,
    Ending,
    Mark,
    ending_at,
    never_arrives,
    silence_in_words,
)
from thruline.timing.fate import Fate
from thruline.timing.run import Run
from thruline.timing.sending import Item, Purpose
from thruline.timing.trail import Arrival, Leg, Trails, arrivals_at, legs_to, lost_in_a_buffer


class Point(NamedTuple):
    """Where a message is when: at the unit of a row, its last byte heard.

    At the controller: its first byte begun.
    """

    row: int
    us: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Fall:
    """One message on its way to one unit.

    `points` never go back in time. `for_it` is False at a neighbour that obeys what is not meant
    for it. `legs` tell the same hop by hop; empty where the message does not leave the controller.
    """

    message: int
    unit: str | None
    points: tuple[Point, ...]
    end: Ending
    for_it: bool
    legs: tuple[Leg, ...]


def falls_of(run: Run, trails: Trails, row_of: Mapping[str, int]) -> tuple[Fall, ...]:
    """The falls of every message, in the order of the sending, each at least once."""
    arrivals = _arrivals(trails, row_of)
    fates = _fates(run)
    found: list[Fall] = []
    for place, item in enumerate(run.sending.items):
        falls = list(_heard(item, arrivals.get(place, ()), fates, row_of=row_of, trails=trails))
        if not any(fall.for_it for fall in falls) and item.unit is not None:
            falls.insert(0, _silent(trails, place, item.unit, row_of=row_of))
        if not falls:
            falls = [_for_nobody(trails, place, arrivals.get(place, ()), row_of=row_of)]
        found += falls
    return tuple(found)


def _arrivals(trails: Trails, row_of: Mapping[str, int]) -> dict[int, list[Arrival]]:
    """Every arrival at the units of the rows, by message."""
    found: dict[int, list[Arrival]] = {}
    for unit in row_of:
        for arrival in arrivals_at(trails, unit):
            found.setdefault(arrival.message, []).append(arrival)
    return found


_Fates = Mapping[tuple[str, int, int], Fate]
"""The fate of a message by the unit, its place in the sending, and when it arrived."""


def _fates(run: Run) -> _Fates:
    return {
        (unit, heard.place, heard.arrival.end_us): fate
        for unit, rows in run.heard.items()
        for heard, fate in zip(rows, run.receptions[unit].fates, strict=True)
    }


def _heard(
    item: Item,
    arrivals: Sequence[Arrival],
    fates: _Fates,
    *,
    row_of: Mapping[str, int],
    trails: Trails,
) -> Iterator[Fall]:
    """The falls to the unit that a message is for, and to others that obey it."""
    for arrival in arrivals:
        for_it = arrival.unit == item.unit
        key = (arrival.unit, arrival.message, arrival.end_us)
        fate = fates.get(key, Fate.OTHER_CHANNEL)
        if for_it or fate.is_good:
            yield Fall(
                message=arrival.message,
                unit=arrival.unit,
                points=_points(arrival.legs, row_of),
                end=ending_at(trails.ground.wires.units[arrival.unit], fate),
                for_it=for_it,
                legs=arrival.legs,
            )


def _points(legs: tuple[Leg, ...], row_of: Mapping[str, int]) -> tuple[Point, ...]:
    """Where the message is when; units without a row are passed over."""
    first = legs[0]
    return (
        Point(row_of[first.link.start.unit], first.start_us),
        *(
            Point(row_of[leg.link.stop.unit], leg.end_us)
            for leg in legs
            if leg.link.stop.unit in row_of
        ),
    )


def leaves_us(trails: Trails, message: int) -> int:
    """When a message begins to leave the controller; when it was handed over, if it never does."""
    for line in trails.ground.roads.starts if trails.flows else ():
        for place in trails.places[line].get(message, ())[:1]:
            return int(trails.flows[line].start_us[place])
    return trails.ready_us[message]


def _silent(trails: Trails, message: int, unit: str, *, row_of: Mapping[str, int]) -> Fall:
    """A message that never reaches the unit that it is for: as far as it comes."""
    end, legs = _stopped(trails, message, unit)
    start = Point(row_of[trails.ground.controller.id], leaves_us(trails, message))
    return Fall(
        message=message,
        unit=unit,
        points=_points(legs, row_of) if legs else (start,),
        end=end,
        for_it=True,
        legs=legs,
    )


def _stopped(trails: Trails, message: int, unit: str) -> tuple[Ending, tuple[Leg, ...]]:
    """Why a message does not reach a unit, and the legs that it does come along."""
    wires, hearing = trails.ground.wires, trails.ground.hearing
    causes = why_silent(
        wires,
        hearing,
        source=trails.ground.controller.id,
        target=unit,
        status=trails.sending.items[message].data[0],
    )
    for where, _, legs in lost_in_a_buffer(trails, message) if not causes else ():
        return never_arrives(f"the buffer of {wires.units[where].name} is full"), legs
    if not causes:
        return never_arrives("it is lost on the way"), ()
    says = silence_in_words(wires.units, causes[0])
    legs = _along(trails, message, [hop.link for hop in causes[0].hops])
    if causes[0].outcome.quality is Quality.CANNOT_TELL:
        return Ending(mark=Mark.RING, fate=None, says=f"cannot be told: {says}"), legs
    return never_arrives(says), legs


def _along(trails: Trails, message: int, links: Sequence[Link]) -> tuple[Leg, ...]:
    """The legs of a message along links, as far as it comes."""
    for link in reversed(links):
        line = trails.ground.roads.line_of.get(link.start)
        if link.carries and line is not None and trails.flows:
            for place in trails.places[line].get(message, ())[:1]:
                return legs_to(trails, link, place)
    return ()


def _for_nobody(
    trails: Trails, message: int, arrivals: Sequence[Arrival], *, row_of: Mapping[str, int]
) -> Fall:
    """A message that no unit obeys, down to where it comes last."""
    last = max(arrivals, key=lambda one: row_of[one.unit], default=None)
    start = Point(row_of[trails.ground.controller.id], leaves_us(trails, message))
    judged = trails.sending.items[message].purpose is not Purpose.OTHER
    return Fall(
        message=message,
        unit=None,
        points=_points(last.legs, row_of) if last else (start,),
        end=NOBODY if judged else UNJUDGED,
        for_it=True,
        legs=last.legs if last else (),
    )
