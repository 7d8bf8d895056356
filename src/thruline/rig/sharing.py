"""A rig after an edit, made of the same objects as before wherever nothing changed.

Later stages keep what they worked out by object; so an edit of one value costs one value.
"""

from dataclasses import replace
from types import MappingProxyType
from typing import TypeVar

from thruline.rig.preset import Goal, Preset
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig

T = TypeVar("T")


def sharing(rig: Rig, before: Rig) -> Rig:
    """An equal rig, with the objects of an earlier one wherever they are equal."""
    units = MappingProxyType(
        {name: _unit(unit, before.units.get(name)) for name, unit in rig.units.items()}
    )
    presets = {preset.address: preset for preset in before.presets}
    controller = units.get(rig.controller.id) if rig.controller else None
    return replace(
        rig,
        units=units,
        controller=controller,
        cables=_same(rig.cables, before.cables),
        audio=_same(rig.audio, before.audio),
        presets=tuple(_preset(one, presets.get(one.address)) for one in rig.presets),
        sweeps=_same(rig.sweeps, before.sweeps),
        songs=_same(rig.songs, before.songs),
    )


def _same(thing: T, before: T) -> T:
    return before if thing is before or thing == before else thing


def _unit(unit: Unit, before: Unit | None) -> Unit:
    return before if before is not None and before == unit else unit


def _preset(preset: Preset, before: Preset | None) -> Preset:
    """The preset itself, or one with the goals of the earlier one where they are equal."""
    if before is None:
        return preset
    if before is preset or before == preset:
        return before
    known = {goal.unit: goal for goal in before.goals}
    goals = tuple(_goal(goal, known.get(goal.unit)) for goal in preset.goals)
    return replace(preset, goals=goals)


def _goal(goal: Goal, before: Goal | None) -> Goal:
    return before if before is not None and before == goal else goal
