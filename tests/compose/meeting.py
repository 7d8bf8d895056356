"""Rigs to compose for, and their goals held against what units make of what was composed."""

import random
from collections.abc import Iterator

from tests.rigs import (
    Document,
    make_box,
    make_cable,
    make_chart,
    make_controller,
    make_rig,
    make_unit,
)
from thruline.compose.goals import goals_by_unit
from thruline.proof.case import Case
from thruline.rig.preset import ControlGoal, Goal, Preset
from thruline.rig.values import ControlKind, Value
from thruline.rig.whole import Rig
from thruline.timing.receive import Reception


def unmet(case: Case) -> list[str]:
    """Every goal of every preset that a unit, having heard everything, does not fulfil."""
    return [says for preset in case.rig.presets for says in _unmet(case, preset)]


def _unmet(case: Case, preset: Preset) -> Iterator[str]:
    run = case.run(preset)
    for unit, goal in goals_by_unit(case.rig, preset).items():
        if case.rig.units[unit] is case.rig.controller or unit not in run.receptions:
            continue
        for says in _missed(goal, run.receptions[unit]):
            yield f"{preset.title}: {unit} {says}"


def _missed(goal: Goal, reception: Reception) -> Iterator[str]:
    if goal.program is not None and goal.program.wire is not None:
        if reception.program != goal.program.wire:
            yield f"has {reception.program} in place of {goal.program.wire}"
        if reception.old_bank:
            yield "relies on the bank of before"
    for one in goal.controls:
        if isinstance(one.value, Value) and not _has(one, one.value.wire, reception):
            yield f"has {reception.values.get(one.control.id)} for {one.control.id}"
    if not all(fate.is_good for fate in reception.fates):
        yield f"refuses something: {reception.fates}"


def _has(one: ControlGoal, wire: int, reception: Reception) -> bool:
    match one.control.kind:
        case ControlKind.MOMENTARY:
            return True
        case ControlKind.TOGGLE_ANY:
            return reception.flips.get(one.control.id) == 1
        case _:
            return reception.values.get(one.control.id) == wire


def copied(seed: int, *, running_status: bool = False, channels: int = 16) -> Rig:
    """A controller, a split box, and on each of its outputs units in a row by electrical copies.

    With fewer `channels` than units, some share one.
    """
    rng = random.Random(seed)
    units = [make_unit("feet", "feet"), make_unit("split", "split")]
    charts = [_feet(rng, running_status), make_box("split", 1, 3)]
    cables = [make_cable("feet.midi-out", "split.in-1")]
    last = [f"split.out-{number}" for number in (1, 2, 3)]
    for number in range(1, rng.randrange(2, 8)):
        name, line = f"box-{number}", number % 3
        cables.append(make_cable(last[line], f"{name}.midi-in"))
        last[line] = f"{name}.midi-out"
        units.append(make_unit(name, name, channel=1 + number % channels))
        charts.append(_box(name, rng))
    presets = [_preset(number, units[2:], rng) for number in range(1, 6)]
    return make_rig(units, cables, charts, preset=presets)


def _feet(rng: random.Random, running_status: bool) -> Document:
    abilities = {
        "presets": 100,
        "pauses": {"step-ms": 1, "longest-ms": 500},
        "gap-us": rng.choice([0, 150]),
        "running-status": running_status,
    }
    return make_controller("feet", controller=abilities)


def _box(name: str, rng: random.Random) -> Document:
    settle = {
        "ms": rng.choice([0, 5, 17, 40]),
        "controls": rng.choice(["lost", "held", "obeyed"]),
        "apply-ms": rng.choice([0, 3]),
    }
    banks = {"banks": {"count": 9}, "slots": {"count": 128, "first": 0}, "separator": "."}
    controls = [
        {"id": "mix", "name": "Mix", "number": 14},
        {"id": "rate", "name": "Rate", "number": 15},
        {"id": "time", "name": "Time", "number": 16, "message": "cc14", "high": 16383},
        {
            "id": "glide",
            "name": "Glide",
            "number": 1030,
            "message": "nrpn",
            "low": 300,
            "high": 900,
        },
    ]
    return make_chart(
        name,
        output=[{"socket": "midi-out", "ways": ["thru-wire"], "from": ["midi-in"], "skew-ns": 100}],
        settle=settle,
        programs=banks | {"bank-select": rng.choice(["msb", "lsb", "both"])},
        control=controls,
    )


_RANGES = (("mix", 0, 127), ("rate", 0, 127), ("time", 0, 16383), ("glide", 300, 900))


def _preset(number: int, units: list[Document], rng: random.Random) -> Document:
    preset: Document = {"number": number, "name": f"Cue {number}"}
    for unit in units:
        goal: Document = {}
        if rng.random() < 0.8:
            goal["program"] = f"{rng.randrange(1, 10)}.{rng.randrange(128)}"
        for name, low, high in _RANGES:
            if rng.random() < 0.4:
                goal[name] = rng.randint(low, high)
        if goal:
            preset[unit["id"]] = goal
    return preset
