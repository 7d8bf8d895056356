"""Single edits of a rig as people make them, at random and seeded: what a proof goes on from."""

import random
from dataclasses import replace
from types import MappingProxyType

from thruline.rig.preset import ControlGoal, Goal, Preset
from thruline.rig.unit import Unit
from thruline.rig.values import Value
from thruline.rig.whole import Rig


def with_preset(rig: Rig, place: int, preset: Preset) -> Rig:
    """The rig with one preset exchanged."""
    presets = (*rig.presets[:place], preset, *rig.presets[place + 1 :])
    return replace(rig, presets=presets)


def with_unit(rig: Rig, unit: Unit) -> Rig:
    """The rig with one unit exchanged."""
    return replace(rig, units=MappingProxyType({**rig.units, unit.id: unit}))


def edit_value(rig: Rig, rng: random.Random) -> Rig:
    """Another value in one preset."""
    place = rng.randrange(len(rig.presets))
    preset = rig.presets[place]
    number = rng.randrange(len(preset.goals))
    goal = preset.goals[number]
    control = rng.choice(list(rig.units[goal.unit].chart.controls.values()))
    wire = rng.randrange(128)
    others = tuple(one for one in goal.controls if one.control.id != control.id)
    controls = (*others, ControlGoal(control, Value(str(wire), wire, str(wire))))
    changed = Goal(unit=goal.unit, program=goal.program, controls=controls, in_loop=goal.in_loop)
    goals = (*preset.goals[:number], changed, *preset.goals[number + 1 :])
    return with_preset(rig, place, replace(preset, goals=goals))


def edit_program(rig: Rig, rng: random.Random) -> Rig:
    """A preset no longer recalls a program of one unit."""
    place = rng.randrange(len(rig.presets))
    preset = rig.presets[place]
    number = rng.randrange(len(preset.goals))
    goals = list(preset.goals)
    goals[number] = replace(goals[number], program=None)
    return with_preset(rig, place, replace(preset, goals=tuple(goals)))


def edit_sweep(rig: Rig, rng: random.Random) -> Rig:
    """A sweep is on fewer presets."""
    place = rng.randrange(len(rig.sweeps))
    sweep = rig.sweeps[place]
    numbers = [preset.number for preset in rig.presets]
    chosen = tuple(sorted(rng.sample(numbers, rng.randrange(1, len(numbers)))))
    sweeps = (*rig.sweeps[:place], replace(sweep, presets=chosen), *rig.sweeps[place + 1 :])
    return replace(rig, sweeps=sweeps)


def edit_channel(rig: Rig, rng: random.Random) -> Rig:
    """A unit is set to another channel."""
    unit = rng.choice([unit for unit in rig.units.values() if unit.chart.listens])
    channel = rng.randrange(1, 17)
    return with_unit(rig, replace(unit, channel=channel, sent_on=channel))


def edit_name(rig: Rig, rng: random.Random) -> Rig:
    """A preset is called otherwise."""
    place = rng.randrange(len(rig.presets))
    preset = replace(rig.presets[place], name=f"Renamed {rng.randrange(1000)}")
    return with_preset(rig, place, preset)


EDITS = {
    "a value": edit_value,
    "a program taken out": edit_program,
    "a sweep's presets": edit_sweep,
    "a name": edit_name,
    "a unit's channel": edit_channel,
}
