"""The rows of a timing chart: the stations of the line, and units that only a relay switches."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from thruline.base.measures import shown_ms
from thruline.path.carriers import Carrier
from thruline.path.silence import why_silent
from thruline.path.stations import Station
from thruline.path.words import WAYS
from thruline.rig.chart import Way
from thruline.rig.unit import Unit, is_omni
from thruline.timing.ending import silence_in_words
from thruline.timing.run import Run
from thruline.timing.trail import Ground


class RowKind(StrEnum):
    """What a row stands for."""

    CONTROLLER = "controller"
    UNIT = "unit"
    LOOP = "loop"
    """A unit without MIDI, in a relay loop that is switched at the press."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row: a station of the line, or a unit in a relay loop.

    `above` is the row from which the line comes, `joins` are rows that feed the unit as well;
    `lane` and `line` as in `Station`. `about` says what it is and how it is set. `silent` says why
    it hears nothing; empty where it hears. `is_cut` where what keeps it silent is right above it.
    `right_us` is when its last value is right, None when nothing changes there. `state` is what a
    relay loop is put to: "in" or "out".
    """

    kind: RowKind
    unit: str
    name: str
    about: str
    above: int | None = None
    joins: tuple[int, ...] = ()
    lane: int = 0
    line: int = 0
    silent: str = ""
    is_cut: bool = False
    right_us: int | None = None
    state: str = ""


@dataclass(frozen=True, slots=True)
class LoopState:
    """A relay loop that is switched: the unit in it, whose loop it is, its name, its new state."""

    unit: str
    owner: str
    loop: str
    state: str


def rows_of(
    run: Run, ground: Ground, line: Sequence[Station], *, loops: Sequence[LoopState] = ()
) -> tuple[Row, ...]:
    """The rows of a picture, from the controller down."""
    on_line = {station.unit for station in line}
    entries: list[Station | LoopState] = []
    for station in line:
        entries.append(station)
        entries += [
            loop for loop in loops if loop.owner == station.unit and loop.unit not in on_line
        ]
    place = {one.unit: number for number, one in enumerate(entries)}
    moved = [place[station.unit] for station in line]
    in_loop = {loop.unit: loop for loop in loops}
    return tuple(
        _square(entry, ground, line[0 if entry.owner not in on_line else _of(line, entry.owner)])
        if isinstance(entry, LoopState)
        else _row(run, ground, _Here(entry, line, moved, in_loop.get(entry.unit)))
        for entry in entries
    )


def _of(line: Sequence[Station], unit: str) -> int:
    return next(place for place, station in enumerate(line) if station.unit == unit)


@dataclass(frozen=True, slots=True)
class _Here:
    """A station, the whole line, the row of every station, and the loop that the unit hangs in."""

    station: Station
    line: Sequence[Station]
    moved: Sequence[int]
    loop: LoopState | None


def _square(loop: LoopState, ground: Ground, owner: Station) -> Row:
    unit = ground.wires.units[loop.unit]
    return Row(
        kind=RowKind.LOOP,
        unit=unit.id,
        name=unit.name,
        about=f"{_kind(unit)} · {loop.loop} of {ground.wires.units[loop.owner].name}",
        lane=owner.lane,
        line=owner.line,
        state=loop.state,
    )


def _row(run: Run, ground: Ground, here: _Here) -> Row:
    station, unit = here.station, ground.wires.units[here.station.unit]
    is_controller = unit.id == ground.controller.id
    above = here.line[station.above] if station.above is not None else None
    reception = run.receptions.get(unit.id)
    return Row(
        kind=RowKind.CONTROLLER if is_controller else RowKind.UNIT,
        unit=unit.id,
        name=unit.name,
        about=" · ".join(_about(ground, unit, here)),
        above=None if station.above is None else here.moved[station.above],
        joins=tuple(here.moved[place] for place in station.joins),
        lane=station.lane,
        line=station.line,
        silent="" if station.reached else _why_silent(ground, unit),
        is_cut=not station.reached and (above is None or above.reached),
        right_us=reception.right_us if reception else None,
    )


def _why_silent(ground: Ground, unit: Unit) -> str:
    found = why_silent(ground.wires, ground.hearing, source=ground.controller.id, target=unit.id)
    return silence_in_words(ground.wires.units, found[0]) if found else "no way there is known"


def _about(ground: Ground, unit: Unit, here: _Here) -> Iterator[str]:
    """What a unit is, its channel, and how it passes on what comes."""
    yield _kind(unit)
    if unit.chart.listens:
        omni = is_omni(unit)
        numbers = ", ".join(map(str, unit.channels)) or "?"
        yield "every channel" if omni else f"ch {numbers}"
    if unit.id != ground.controller.id:
        used = ground.wires.leaving
        ways = [_way(one) for one in ground.wires.outputs_of(unit.id) if one.jack in used]
        yield ", ".join(dict.fromkeys(ways)) or "end of the line"
    if here.loop is not None:
        yield f"{here.loop.loop} {here.loop.state}"


def _kind(unit: Unit) -> str:
    return unit.chart.kind[:1].upper() + unit.chart.kind[1:]


def _way(carrier: Carrier) -> str:
    if carrier.way is None:
        return "thru or not: cannot be told"
    adds = carrier.output.latency_us
    with_time = adds and carrier.way in (Way.THRU_SOFT, Way.MERGE)
    return f"{WAYS[carrier.way]} {shown_ms(adds)}" if adds and with_time else WAYS[carrier.way]
