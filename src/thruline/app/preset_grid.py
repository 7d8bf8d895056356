"""The presets as a sheet: presets down, units across; read, and typed into."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

from thruline.app.cells import NotACell, cell_text, read_cell
from thruline.app.frame import Json
from thruline.app.mend import State
from thruline.base.address import read_address
from thruline.base.edit import Edit, Plain, add_to, remove, set_to
from thruline.base.errors import CannotUse
from thruline.document.naming import labels
from thruline.document.shape import LONGEST_NAME
from thruline.document.unseen import unseen_in
from thruline.rig.preset import Goal, Preset
from thruline.rig.unit import Unit
from thruline.rig.values import NotUnderstood
from thruline.sameness.leftovers import leftovers
from thruline.sameness.words import name_of

NAME = "name"
_Left: TypeAlias = Mapping[tuple[int, str], str]
_HEAD = ("number", "name", "about", "messages")


@dataclass(frozen=True, slots=True)
class Typed:
    """A text for a cell: the entry's name in addresses, the unit's id or `name`, and the text."""

    preset: str
    column: str
    text: str


class NotUnderstoodCells(CannotUse):
    """Texts that make no sense; nothing of what was typed with them is in the document."""

    def __init__(self, cells: Sequence[tuple[Typed, NotACell]]) -> None:
        typed, wrong = cells[0]
        more = f" (and {len(cells) - 1} more)" if len(cells) > 1 else ""
        super().__init__(
            f"{typed.column} of preset {typed.preset}: {wrong.why}; "
            f"it reads like {wrong.example}{more}"
        )
        self.cells = tuple(cells)


def columns_of(state: State) -> tuple[Unit, ...]:
    """The units that a preset can want something of."""
    rig = state.opened.rig
    hung = {unit for one in (rig.audio.stages if rig.audio else ()) for unit in one.inside}
    return tuple(
        unit
        for unit in rig.units.values()
        if unit is not rig.controller
        and (unit.chart.programs or unit.chart.controls or unit.id in hung or _is_used(state, unit))
    )


def _is_used(state: State, unit: Unit) -> bool:
    return any(preset.goal_for(unit.id) for preset in state.opened.rig.presets)


def grid_json(state: State, before: State | None = None) -> Json:
    """The whole sheet; with an earlier state of the same columns and rows, what differs from it.

    Then `presets` is left out, and `rows` holds the rows that differ, by their place.
    """
    units = columns_of(state)
    left = _left_over(state)
    presets = list(zip(_rows(state), state.opened.rig.presets, strict=True))
    if before is not None and _is_alike(state, before):
        old, old_left = before.opened.rig.presets, _left_over(before)
        return {
            "rows": {
                place: _row(*one, units, left)
                for place, one in enumerate(presets)
                if one[1] is not old[place]
                or _of_row(one[1], units, left) != _of_row(one[1], units, old_left)
            }
        }
    return {
        "units": [
            {
                "id": unit.id,
                "name": unit.name,
                "controls": [one.id for one in unit.chart.controls.values()],
            }
            for unit in units
        ],
        "presets": [_row(*one, units, left) for one in presets],
    }


def _is_alike(state: State, before: State) -> bool:
    """Whether two sheets have the same columns and rows."""
    presets, old = state.opened.rig.presets, before.opened.rig.presets
    return [one.address for one in presets] == [one.address for one in old] and (
        columns_of(state) == columns_of(before)
    )


def _row(
    row: tuple[str, Mapping[str, Any]], preset: Preset, units: Sequence[Unit], left: _Left
) -> Json:
    label, data = row
    return {
        "label": label,
        "name": data["name"],
        "cells": [cell_text(data.get(unit.id)) for unit in units],
        "hints": _hints(preset, units),
        "left": _of_row(preset, units, left),
    }


def _of_row(preset: Preset, units: Sequence[Unit], left: _Left) -> Mapping[int, str]:
    """What is left over in the cells of a row, by their place."""
    return {
        place: left[preset.number, unit.id]
        for place, unit in enumerate(units)
        if (preset.number, unit.id) in left
    }


def _rows(state: State) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Every preset of the document with its name in addresses."""
    entries = state.opened.document.data.get("preset", [])
    return zip(labels("preset", entries), entries, strict=True)


def _left_over(state: State) -> _Left:
    """For cells in which something depends on where one comes from: what."""
    found: dict[tuple[int, str], list[str]] = {}
    if state.opened.rig.controller is None:
        return {}
    for one in leftovers(state.case.held):
        for preset in one.left_in:
            found.setdefault((preset.number, one.column.unit), []).append(name_of(one.column))
    return {
        cell: f"left over: {', '.join(names)} depends on where you come from"
        for cell, names in found.items()
    }


def _hints(preset: Preset, units: Sequence[Unit]) -> Mapping[int, str]:
    """For cells with something in them: what goes over the wire and what the unit shows."""
    places = {unit.id: place for place, unit in enumerate(units)}
    return {
        places[goal.unit]: "; ".join(_parts(goal)) for goal in preset.goals if goal.unit in places
    }


def _parts(goal: Goal) -> Iterator[str]:
    if goal.program is not None:
        wire = goal.program.wire
        told = (
            f"bank {wire.bank}, program {wire.program} on the wire" if wire else "no such program"
        )
        yield f"{goal.program.label}: {told}"
    for one in goal.controls:
        if isinstance(one.value, NotUnderstood):
            yield f"{one.control.name}: {one.value.why}"
        else:
            byte = f"CC {one.control.number} = {one.value.wire}"
            yield f"{one.control.name}: {byte} on the wire, shows {one.value.shown}"
    if goal.in_loop is not None:
        yield f"loop {'in' if goal.in_loop else 'out'}"


def typed_edits(state: State, typed: Iterable[Typed]) -> tuple[Edit, ...]:
    """The edits for texts typed into cells.

    Raises NotUnderstoodCells with all texts that make no sense, CannotUse when a cell is not there.
    """
    known = dict(_rows(state))
    edits: list[Edit] = []
    wrong: list[tuple[Typed, NotACell]] = []
    for one in typed:
        if one.preset not in known:
            raise CannotUse(f"there is no preset {one.preset} any more")
        found = _edit(state, one, known[one.preset])
        if isinstance(found, NotACell):
            wrong.append((one, found))
        elif found is not None:
            edits.append(found)
    if wrong:
        raise NotUnderstoodCells(wrong)
    return tuple(edits)


def _edit(state: State, one: Typed, data: Mapping[str, Any]) -> Edit | NotACell | None:
    """The edit for one cell; None when it changes nothing."""
    place = read_address(f"preset[{one.preset}].{one.column}")
    if one.column == NAME:
        name = " ".join(one.text.split())
        if not name or len(name) > LONGEST_NAME:
            return NotACell(f"a preset has a name of 1 to {LONGEST_NAME} letters", "Verse, clean")
        if wrong := unseen_in(name):
            return NotACell(f"this name {wrong}", "Verse, clean")
        return set_to(place, name) if name != data[NAME] else None
    unit = state.opened.rig.units.get(one.column)
    if unit is None:
        raise CannotUse(f'there is no unit "{one.column}" any more')
    raw = data.get(one.column)
    wanted = read_cell(unit, one.text, raw)
    if isinstance(wanted, NotACell) or wanted == raw:
        return wanted if isinstance(wanted, NotACell) else None
    return remove(place) if wanted is None else set_to(place, wanted)


def added_preset(state: State, like: str | None = None) -> Edit:
    """One more preset, with the next number that is free: empty, or a copy of another.

    Raises CannotUse when the one to copy is not there.
    """
    rows = dict(_rows(state))
    taken = {data["number"] for data in rows.values()}
    number = next(one for one in range(max(taken, default=0) + 1, 99_999) if one not in taken)
    entry: dict[str, Plain] = {"number": number, "name": f"Preset {number}"}
    if like is not None:
        if like not in rows:
            raise CannotUse(f"there is no preset {like} any more")
        old = rows[like]
        goals = {key: value for key, value in old.items() if key not in _HEAD}
        entry = {"number": number, "name": f"{old['name']} (copy)", **goals}
    return add_to(read_address("preset"), entry)
