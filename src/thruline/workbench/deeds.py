"""What a page can do to a rig: each deed reads what was asked and gives a change of the desk."""

from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType

from thruline.app import desk as desks
from thruline.app.desk import Desk, Keeping
from thruline.app.desk_answer import mend_edits
from thruline.app.edit_words import edits_in_words, read_edits
from thruline.app.mend import State
from thruline.app.plan_view import applied
from thruline.app.preset_grid import Typed, added_preset, typed_edits
from thruline.app.preset_order import in_order_of_number, renumbered_preset
from thruline.app.sweep_view import (
    added_sweep,
    curve_edit,
    end_edit,
    move_entry,
    presets_edit,
)
from thruline.app.unit_removal import removed_unit
from thruline.app.unit_renaming import renamed_unit
from thruline.app.unit_view import added_cable, added_unit
from thruline.base.address import read_address
from thruline.base.edit import Edit, add_to
from thruline.base.errors import CannotUse
from thruline.workbench.asked import Asked, wanted
from thruline.workbench.chart_deeds import CHART_DEEDS
from thruline.workbench.fact_deeds import add_fact, fact, move_fact
from thruline.workbench.room import Change
from thruline.workbench.search_deeds import SEARCH_DEEDS


def _edit(asked: Asked) -> Change:
    edits, seen = read_edits(asked.get("edits")), wanted(asked, "seen", int)

    def change(desk: Desk, keeping: Keeping) -> Desk:
        desk = desks.caught_up(desk, keeping)
        return desks.edited(desk, edits, keeping, says=_says(desk, edits), seen=seen)

    return change


def _says(desk: Desk, edits: Sequence[Edit]) -> str:
    return edits_in_words(edits, desk.state.opened.document.data)


def _cells(asked: Asked) -> Change:
    seen = wanted(asked, "seen", int)
    typed = [
        Typed(wanted(one, "preset", str), wanted(one, "column", str), wanted(one, "text", str))
        for one in wanted(asked, "cells", list)
        if isinstance(one, dict)
    ]

    def change(desk: Desk, keeping: Keeping) -> Desk:
        desk = desks.caught_up(desk, keeping)
        edits = typed_edits(desk.state, typed)
        says = _says(desk, edits)
        return desks.edited(desk, edits, keeping, says=says, seen=seen) if edits else desk

    return change


def _add_preset(asked: Asked) -> Change:
    like = wanted(asked, "like", str) if "like" in asked else None
    return _made(asked, lambda state: added_preset(state, like))


def _renumber_preset(asked: Asked) -> Change:
    """Give a preset another number, wherever it is named by it."""
    preset, text = wanted(asked, "preset", str), wanted(asked, "text", str)
    seen = wanted(asked, "seen", int)

    def change(desk: Desk, keeping: Keeping) -> Desk:
        desk = desks.caught_up(desk, keeping)
        edits = renumbered_preset(desk.state, preset, text)
        says = f"preset {preset} became {text.strip()}"
        return desks.edited(desk, edits, keeping, says=says, seen=seen) if edits else desk

    return change


def _sort_presets(_asked: Asked) -> Change:
    """Put presets into the order of their numbers."""

    def change(desk: Desk, keeping: Keeping) -> Desk:
        desk = desks.caught_up(desk, keeping)
        says = "put presets into the order of their numbers"
        return desks.edited(desk, [in_order_of_number(desk.state)], keeping, says=says)

    return change


def _add_unit(asked: Asked) -> Change:
    chart = wanted(asked, "chart", str)
    return _made(asked, lambda state: added_unit(state, chart, shelves=state.opened.shelves))


def _remove_unit(asked: Asked) -> Change:
    """Take a unit out with what hangs on it."""
    unit, seen = wanted(asked, "unit", str), wanted(asked, "seen", int)

    def change(desk: Desk, keeping: Keeping) -> Desk:
        desk = desks.caught_up(desk, keeping)
        edits = removed_unit(desk.state, unit)
        return desks.edited(desk, edits, keeping, says=f"removed {unit}", seen=seen)

    return change


def _rename_unit(asked: Asked) -> Change:
    """Give a unit another id, wherever it is named."""
    unit, text = wanted(asked, "unit", str), wanted(asked, "text", str)

    def change(desk: Desk, keeping: Keeping) -> Desk:
        desk = desks.caught_up(desk, keeping)
        edits = renamed_unit(desk.state, unit, text)
        says = f"{unit} is called {text.strip()}"
        return desks.edited(desk, edits, keeping, says=says) if edits else desk

    return change


def _add_cable(asked: Asked) -> Change:
    start, stop = wanted(asked, "from", str), wanted(asked, "to", str)
    return _made(asked, lambda state: added_cable(state, start, stop))


def _sweep_end(asked: Asked) -> Change:
    address, end = wanted(asked, "move", str), wanted(asked, "end", str)
    value = asked.get("value")
    if not isinstance(value, str | int) or isinstance(value, bool):
        raise CannotUse('"value" is wanted, a byte or a text')
    return _made(asked, lambda state: end_edit(state, address, end=end, wanted=value))


def _sweep_curve(asked: Asked) -> Change:
    address, curve = wanted(asked, "move", str), asked.get("curve")
    return _made(asked, lambda state: curve_edit(state, address, curve))


def _sweep_presets(asked: Asked) -> Change:
    address, text = wanted(asked, "sweep", str), wanted(asked, "text", str)
    return _made(asked, lambda state: presets_edit(state, address, text))


def _add_sweep(asked: Asked) -> Change:
    pedal, unit = wanted(asked, "pedal", str), wanted(asked, "unit", str)
    control = wanted(asked, "control", str)
    return _made(asked, lambda state: added_sweep(state, pedal, unit=unit, control=control))


def _add_move(asked: Asked) -> Change:
    address = read_address(wanted(asked, "sweep", str)).child("moves")
    unit, control = wanted(asked, "unit", str), wanted(asked, "control", str)
    return _made(asked, lambda state: add_to(address, move_entry(state, unit, control)))


def _made(asked: Asked, make: Callable[[State], Edit]) -> Change:
    """A change by one edit that is made on what is on the desk."""
    seen = wanted(asked, "seen", int)

    def change(desk: Desk, keeping: Keeping) -> Desk:
        desk = desks.caught_up(desk, keeping)
        edit = make(desk.state)
        return desks.edited(desk, [edit], keeping, says=_says(desk, [edit]), seen=seen)

    return change


def _mend(asked: Asked) -> Change:
    finding, says = wanted(asked, "finding", str), wanted(asked, "mend", str)

    def change(desk: Desk, keeping: Keeping) -> Desk:
        desk = desks.caught_up(desk, keeping)
        return desks.edited(desk, mend_edits(desk, finding, says=says), keeping, says=says)

    return change


def _plan(asked: Asked) -> Change:
    """Make the edits of a plan as they were shown."""
    name, seen = wanted(asked, "plan", str), wanted(asked, "seen", int)
    edits = read_edits(asked.get("edits"))
    return lambda desk, keeping: applied(desk, keeping, name, edits=edits, seen=seen)


def _undo(_asked: Asked) -> Change:
    return desks.undone


def _redo(_asked: Asked) -> Change:
    return desks.redone


def _restore(asked: Asked) -> Change:
    number = wanted(asked, "revision", int)
    return lambda desk, keeping: desks.restored(desk, number, keeping)


def _name(asked: Asked) -> Change:
    number, name = wanted(asked, "revision", int), wanted(asked, "name", str)

    def change(desk: Desk, keeping: Keeping) -> Desk:
        desks.named(number, name, keeping)
        return desk

    return change


DEEDS: Mapping[str, Callable[[Asked], Change]] = MappingProxyType(
    {
        "add-cable": _add_cable,
        "add-fact": add_fact,
        "add-move": _add_move,
        "add-preset": _add_preset,
        "add-sweep": _add_sweep,
        "add-unit": _add_unit,
        "cells": _cells,
        "edit": _edit,
        "fact": fact,
        "mend": _mend,
        "move-fact": move_fact,
        "name": _name,
        "plan": _plan,
        "redo": _redo,
        "remove-unit": _remove_unit,
        "rename-unit": _rename_unit,
        "renumber-preset": _renumber_preset,
        "restore": _restore,
        "sort-presets": _sort_presets,
        "sweep-curve": _sweep_curve,
        "sweep-end": _sweep_end,
        "sweep-presets": _sweep_presets,
        "undo": _undo,
        **CHART_DEEDS,
        **SEARCH_DEEDS,
    }
)
"""Every deed by the word that a page sends."""


def deed(name: str, asked: Asked) -> Change:
    """The change that a page asks for. Raises CannotUse when there is no such deed."""
    if name not in DEEDS:
        raise CannotUse(f'there is no "{name}"; there are {", ".join(DEEDS)}')
    return DEEDS[name](asked)
