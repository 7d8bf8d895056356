"""A unit taken out of a rig together with what hangs on it: said first, then done in one step."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from thruline.app.mend import State
from thruline.base.address import Address, at
from thruline.base.edit import Edit, Plain, remove, set_to
from thruline.base.errors import CannotUse
from thruline.document.naming import labels

_LOOP = re.compile(r"\s*([a-z0-9-]+)(\.[a-z0-9-]+)\[([^\]]*)\]\s*")


@dataclass(frozen=True, slots=True)
class Going:
    """Something that goes with a unit: in words, and by which edits."""

    says: str
    edits: tuple[Edit, ...]


def removed_unit(state: State, unit: str) -> tuple[Edit, ...]:
    """The edits that take a unit out and everything that would be left hanging in the air.

    Raises CannotUse when there is no such unit.
    """
    if unit not in state.opened.rig.units:
        raise CannotUse(f'there is no unit "{unit}" any more')
    hanging = (edit for one in going_with(state, unit) for edit in one.edits)
    return (*hanging, remove(state.opened.rig.units[unit].address))


def going_with(state: State, unit: str) -> tuple[Going, ...]:
    """What goes with a unit: its cables, what presets want of it, its sweeps, its way of sound."""
    data = state.opened.document.data
    return (*_cables(data, unit), *_goals(data, unit), *_sweeps(data, unit), *_sound(data, unit))


def _entries(data: Mapping[str, Any], key: str) -> list[tuple[Address, Mapping[str, Any]]]:
    """The tables of a list, the last first: taken out in this order, none changes its name."""
    found = data.get(key, [])
    named = zip(labels(key, found), found, strict=True)
    return [(at(key, label), one) for label, one in named][::-1]


def _cables(data: Mapping[str, Any], unit: str) -> Iterator[Going]:
    for address, one in _entries(data, "cable"):
        if f"{unit}." in (_owner(one["from"]), _owner(one["to"])):
            yield Going(f"the cable from {one['from']} to {one['to']}", (remove(address),))


def _owner(socket: str) -> str:
    return socket.partition(".")[0] + "."


def _goals(data: Mapping[str, Any], unit: str) -> Iterator[Going]:
    wants = [address for address, one in _entries(data, "preset") if unit in one]
    if wants:
        count = "1 preset wants" if len(wants) == 1 else f"{len(wants)} presets want"
        yield Going(f"what {count} of it", tuple(remove(one.child(unit)) for one in wants))


def _sweeps(data: Mapping[str, Any], unit: str) -> Iterator[Going]:
    for address, sweep in _entries(data, "sweep"):
        moves = sweep["moves"]
        own = [place for place, one in enumerate(moves) if one["unit"] == unit]
        if len(own) == len(moves) or _owner(sweep["pedal"]) == f"{unit}.":
            yield Going(f'the sweep "{sweep["name"]}"', (remove(address),))
        elif own:
            names = labels("moves", moves)
            controls = " and ".join(moves[place]["control"] for place in own)
            edits = tuple(remove(address.child("moves", names[place])) for place in own[::-1])
            yield Going(f'the moves of {controls} in the sweep "{sweep["name"]}"', edits)


def _sound(data: Mapping[str, Any], unit: str) -> Iterator[Going]:
    path: Sequence[str] = data.get("audio", {}).get("path", [])
    left: list[Plain] = [stage for one in path for stage in _without(one, unit)]
    if left != list(path):
        edit = set_to(at("audio").child("path"), left) if left else remove(at("audio"))
        yield Going("its place in the way of the sound", (edit,))


def _without(stage: str, unit: str) -> list[str]:
    """A stage of the way of the sound without a unit; what hung in its loops stays on the way."""
    loop = _LOOP.fullmatch(stage)
    if loop is None:
        return [] if stage.strip() == unit else [stage]
    inside = [name for one in loop[3].split(",") if (name := one.strip())]
    left = [name for name in inside if name != unit]
    if loop[1] == unit:
        return left
    return [stage] if left == inside else [f"{loop[1]}{loop[2]}[{', '.join(left)}]"]
