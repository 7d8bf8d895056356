"""Sweeps for a page: the curve of every move as bytes over the travel, and what can be changed."""

import re
from collections.abc import Iterator, Mapping
from typing import Any

from thruline.app.frame import Json
from thruline.app.mend import State
from thruline.base.address import Address, at
from thruline.base.edit import Edit, Plain, add_to, set_to
from thruline.base.errors import CannotUse
from thruline.document.naming import labels
from thruline.rig.sweep import (
    POSITIONS,
    SHAPES,
    Move,
    Sweep,
    as_points,
    nearest_shape,
    share,
    values_of,
)
from thruline.rig.values import Control, NotUnderstood, Value, read_value, shown

POINTS = "points"
"""What a page asks for to have a curve as points."""
_LIST = re.compile(r"\d{1,5}(\s*[,; ]\s*\d{1,5})*")


def sweeps_json(state: State) -> Json:
    """Every sweep with its moves, and what more could be moved by which pedal."""
    rig = state.opened.rig
    return {
        "sweeps": [_sweep(state, one) for one in rig.sweeps],
        "curves": list(SHAPES),
        "pedals": list(_pedals(state)),
        "controls": [
            {"unit": unit.id, "control": one.id, "name": f"{unit.name}: {one.name}"}
            for unit in rig.units.values()
            for one in unit.chart.controls.values()
        ],
        "presets": [{"number": one.number, "name": one.name} for one in rig.presets],
    }


def _pedals(state: State) -> Iterator[str]:
    """Every input that a pedal can be plugged into, on the foot controller."""
    controller = state.opened.rig.controller
    for socket in controller.chart.pedals if controller else ():
        yield f"{controller.id}.{socket}" if controller else socket


def _sweep(state: State, one: Sweep) -> Json:
    written = _written(state, one.address)["presets"]
    return {
        "address": str(one.address),
        "name": one.name,
        "pedal": str(one.pedal),
        "presets": written if written == "all" else ", ".join(str(number) for number in written),
        "count": len(one.presets),
        "moves": [_move(state, one, move) for move in one.moves],
    }


def _move(state: State, sweep: Sweep, move: Move) -> Json:
    unit = state.opened.rig.units[move.unit]
    control = move.control
    return {
        "address": str(sweep.address_of(move)),
        "unit": unit.name,
        "control": control.name,
        "low": control.low,
        "high": control.high,
        "heel": _end(move.heel),
        "toe": _end(move.toe),
        "curve": move.curve.name,
        "points": [list(point) for point in move.curve.points],
        "nearest": nearest_shape(move.curve),
        "shares": [round(share(move.curve, at_ / (POSITIONS - 1)), 5) for at_ in range(POSITIONS)],
        "values": list(values_of(move)),
        "shown": [shown(control, value) for value in range(control.low, control.high + 1)]
        if control.high - control.low < 128
        else [],
    }


def _end(end: Value | NotUnderstood) -> Json:
    if isinstance(end, NotUnderstood):
        return {"written": end.written, "wire": None, "shown": "", "why": end.why}
    return {"written": end.written, "wire": end.wire, "shown": end.shown, "why": ""}


def _written(state: State, address: Address) -> Mapping[str, Any]:
    """A sweep as it stands in the document."""
    entries = state.opened.document.data["sweep"]
    names = labels("sweep", entries)
    found: Mapping[str, Any] = entries[names.index(address.steps[0].entry or "")]
    return found


def found_move(state: State, address: str) -> tuple[Sweep, Move]:
    """A move by its address. Raises CannotUse when it has gone."""
    for sweep in state.opened.rig.sweeps:
        for move in sweep.moves:
            if str(sweep.address_of(move)) == address:
                return sweep, move
    raise CannotUse("this move is not there any more")


def end_edit(state: State, address: str, *, end: str, wanted: str | int) -> Edit:
    """The edit that puts an end of a move somewhere: a byte, or a value as it is typed.

    Raises CannotUse, with an example, when the value makes no sense there.
    """
    sweep, move = found_move(state, address)
    if end not in ("heel", "toe"):
        raise CannotUse(f'a move has a heel and a toe, no "{end}"')
    place = sweep.address_of(move).child(end)
    if isinstance(wanted, int):
        return set_to(place, as_shown(move.control, wanted))
    wanted = wanted.strip()
    text: str | int = int(wanted) if re.fullmatch(r"-?\d{1,6}", wanted) else wanted
    value = read_value(move.control, text)
    if isinstance(value, NotUnderstood):
        example = value.example.strip('"')
        raise CannotUse(f"{value.why}; it reads like {example}")
    return set_to(place, text)


def curve_edit(state: State, address: str, curve: object) -> Edit:
    """The edit that gives a move another curve: a name, `points`, or points as they shall be.

    `points` puts points on the curve that is there, so that it can be bent further; points are
    pairs of travel and share in whole percents, and are written in the order of their travel.
    Raises CannotUse, saying which point is wrong, when there is no such curve.
    """
    sweep, move = found_move(state, address)
    place = sweep.address_of(move).child("curve")
    if isinstance(curve, list):
        return set_to(place, _points(curve))
    if curve == POINTS:
        return set_to(place, [list(point) for point in as_points(move.curve)])
    if not isinstance(curve, str) or curve not in SHAPES:
        names = ", ".join(SHAPES)
        raise CannotUse(f'there is no curve "{curve}"; there are {names}, or points')
    return set_to(place, curve)


def _points(given: list[object]) -> list[Plain]:
    if len(given) < 2:
        raise CannotUse("a curve needs two points at least; or choose a curve that has a name")
    points = [_point(one, nth) for nth, one in enumerate(given, 1)]
    return [list(point) for point in sorted(points, key=lambda point: point[0])]


def _point(one: object, nth: int) -> tuple[int, int]:
    match one:
        case [int(travel), int(share_)] if bool not in map(type, one):
            for name, percent in (("travel", travel), ("share", share_)):
                if not 0 <= percent <= 100:
                    raise CannotUse(f"point {nth}: its {name} is from 0 % to 100 %, not {percent}")
            return travel, share_
        case _:
            raise CannotUse(
                f"point {nth}: a travel and a share are wanted, in whole percents such as 70 and 20"
            )


def as_shown(control: Control, wire: int) -> str | int:
    """A byte as the unit shows it, where that says exactly the same; or else the byte."""
    wire = min(control.high, max(control.low, wire))
    text = shown(control, wire)
    value = read_value(control, text)
    exact = control.scale is not None and isinstance(value, Value) and value.wire == wire
    return text if exact else wire


def presets_edit(state: State, address: str, text: str) -> Edit:
    """The edit that says on which presets a sweep works: `all`, or numbers with commas.

    Raises CannotUse when it makes no sense.
    """
    sweep = next((one for one in state.opened.rig.sweeps if str(one.address) == address), None)
    if sweep is None:
        raise CannotUse("this sweep is not there any more")
    text = text.strip().lower()
    if text != "all" and not _LIST.fullmatch(text):
        raise CannotUse('the presets of a sweep read like 3, 7, 11 or "all"')
    wanted: Plain = "all" if text == "all" else [int(one) for one in re.findall(r"\d+", text)]
    return set_to(sweep.address.child("presets"), wanted)


def added_sweep(state: State, pedal: str, *, unit: str, control: str) -> Edit:
    """One more sweep with one move over its whole range.

    Raises CannotUse when there is no such control or pedal.
    """
    if pedal not in _pedals(state):
        raise CannotUse(f'"{pedal}" is no input for a pedal')
    taken = {one.name for one in state.opened.rig.sweeps}
    count = next(n for n in range(1, 9999) if f"Sweep {n}" not in taken)
    move = move_entry(state, unit, control)
    entry: dict[str, Plain] = {
        "name": f"Sweep {count}",
        "pedal": pedal,
        "presets": "all",
        "moves": [move],
    }
    return add_to(at("sweep"), entry)


def move_entry(state: State, unit: str, control: str) -> dict[str, "Plain"]:
    """A move of a control over its whole range. Raises CannotUse when it is not there."""
    found = state.opened.rig.units.get(unit)
    if found is None or control not in found.chart.controls:
        raise CannotUse(f'there is no control "{control}" of "{unit}"')
    one = found.chart.controls[control]
    heel, toe = as_shown(one, one.low), as_shown(one, one.high)
    return {"unit": unit, "control": control, "heel": heel, "toe": toe}
