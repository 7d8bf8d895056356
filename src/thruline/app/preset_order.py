"""A preset's own facts, its number, and its place among the others."""

from collections.abc import Iterator, Mapping
from typing import Any

from thruline.app.fact_view import entry_json
from thruline.app.frame import Json
from thruline.app.mend import State
from thruline.base.address import Address, at
from thruline.base.edit import Edit, Plain, set_to
from thruline.base.errors import CannotUse
from thruline.document.facts import typed_to_value
from thruline.document.naming import labels
from thruline.document.rig_shape import RigShape

_PRESET = "preset"


def preset_facts_json(state: State, label: str) -> Json:
    """What is written of a preset beside what it wants of units, as facts for a page.

    Raises CannotUse when there is no such preset.
    """
    return {"preset": entry_json(state, _PRESET, label)}


def renumbered_preset(state: State, label: str, typed: str) -> tuple[Edit, ...]:
    """The edits that give a preset another number, also in songs, sweeps and accepted findings.

    Raises CannotUse when the number is not understood or another preset has it.
    """
    data = state.opened.document.data
    rows = dict(zip(labels(_PRESET, data.get(_PRESET, [])), data.get(_PRESET, []), strict=True))
    if label not in rows:
        raise CannotUse(f"there is no preset {label} any more")
    old, place = rows[label]["number"], at(_PRESET, label).child("number")
    new = typed_to_value(RigShape, place, typed)
    if new == old:
        return ()
    for one in rows.values():
        if one["number"] == new:
            raise CannotUse(f"preset {new} is there already: {one['name']}; give one that is free")
    shares_number = sum(one["number"] == old for one in rows.values()) > 1
    named = () if shares_number else (*_lists(data, old, new), *_accepted(data, label, f"{new}"))
    return (*named, set_to(place, new))


def _lists(data: Mapping[str, Any], old: int, new: Plain) -> Iterator[Edit]:
    """Songs and sweeps that name a preset, with its new number."""
    for key in ("song", "sweep"):
        for address, one in _named(data, key):
            if one["presets"] != "all" and old in one["presets"]:
                changed = [new if number == old else number for number in one["presets"]]
                yield set_to(address.child("presets"), changed)


def _accepted(data: Mapping[str, Any], old: str, new: str) -> Iterator[Edit]:
    """Accepted findings at a preset; the last first, since each is called by what it accepts."""
    for address, one in reversed(list(_named(data, "accept"))):
        changed = one["finding"].replace(f"{_PRESET}[{old}]", f"{_PRESET}[{new}]")
        if changed != one["finding"]:
            yield set_to(address.child("finding"), changed)


def _named(data: Mapping[str, Any], key: str) -> Iterator[tuple[Address, Mapping[str, Any]]]:
    entries = data.get(key, [])
    for label, one in zip(labels(key, entries), entries, strict=True):
        yield at(key, label), one


def in_order_of_number(state: State) -> Edit:
    """The edit that puts presets into the order of their numbers.

    Raises CannotUse when they stand in it.
    """
    entries = state.opened.document.data.get(_PRESET, [])
    ordered = sorted(entries, key=lambda one: one["number"])
    if ordered == entries:
        raise CannotUse("the presets stand in the order of their numbers already")
    return set_to(at(_PRESET), ordered)
