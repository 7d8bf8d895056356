"""Seeded boards to audit: a controller, a line of units, two pedals, and an earlier version."""

import random
from itertools import pairwise
from typing import Any

from thruline.document.chart_shape import ChartShape
from thruline.document.rig_shape import RigShape
from thruline.proof.case import Case
from thruline.rig.read_chart import read_chart
from thruline.rig.resolve import resolve

IN = {"id": "midi-in", "kind": "midi-in", "connector": "din5", "isolated": True}
OUT = {"id": "midi-out", "kind": "midi-out", "connector": "din5"}


def _controller(presets: int) -> dict[str, Any]:
    pedals = [
        {"socket": f"exp-{n}", "moves": 4, "curves": ["linear"], "interval-ms": 20} for n in (1, 2)
    ]
    sockets = [{"id": f"exp-{n}", "kind": "expression-in", "connector": "trs-6.35"} for n in (1, 2)]
    return {
        "format": 1,
        "chart": {"id": "feet", "maker": "Made", "model": "Feet", "kind": "controller"},
        "socket": [OUT, *sockets],
        "output": [{"socket": "midi-out", "ways": ["own"]}],
        "pedal": pedals,
        "controller": {"presets": presets, "pauses": {"step-ms": 1, "longest-ms": 500}},
    }


def _box(number: int, rng: random.Random) -> dict[str, Any]:
    numbers = rng.sample([one for one in range(1, 120) if one not in (6, 32, 38)], 4)
    return {
        "format": 1,
        "chart": {
            "id": f"box-{number}",
            "maker": "Made",
            "model": f"Box {number}",
            "kind": "delay",
        },
        "socket": [IN, OUT],
        "output": [{"socket": "midi-out", "ways": ["merge"], "latency-us": 300}],
        "channel": {"factory": 1},
        "programs": {"slots": {"count": 128, "first": 1}},
        "settle": {"ms": rng.randrange(5, 40), "controls": "lost"},
        "receive": {"program": True, "control": True, "clock": True, "system-exclusive": True},
        "control": [
            {"id": f"c{place}", "name": f"Control {place}", "number": one, "stored": True}
            for place, one in enumerate(numbers)
        ],
    }


def _preset(number: int, units: int, rng: random.Random) -> dict[str, Any]:
    made: dict[str, Any] = {"number": number, "name": f"Cue {number}"}
    for unit in range(1, units + 1):
        goal: dict[str, Any] = {}
        if rng.random() < 0.85:
            goal["program"] = rng.randrange(1, 129)
        for control in rng.sample(range(3), rng.choice((0, 1, 2, 2, 3))):
            goal[f"c{control}"] = rng.randrange(128)
        if goal:
            made[f"u{unit}"] = goal
    return made


def world(seed: int, *, units: int = 16, presets: int = 64) -> tuple[Case, Case]:
    """A board, and the version of it that was programmed before; some presets differ."""
    rng = random.Random(seed)
    charts = [_controller(presets), *(_box(n, rng) for n in range(1, units + 1))]
    channels = rng.sample(range(1, 17), units)
    rows = [{"id": "feet", "chart": "feet"}]
    rows += [
        {"id": f"u{n}", "chart": f"box-{n}", "channel": channels[n - 1]}
        for n in range(1, units + 1)
    ]
    names = [row["id"] for row in rows]
    cables = [
        {"from": f"{a}.midi-out", "to": f"{b}.midi-in", "ends": "din5/din5", "length": 300}
        for a, b in pairwise(names)
    ]
    moved = rng.sample(range(1, units + 1), 4)
    sweeps = [
        {
            "name": f"Sweep {n}",
            "pedal": f"feet.exp-{n}",
            "presets": "all",
            "moves": [
                {"unit": f"u{unit}", "control": "c3", "heel": rng.randrange(60), "toe": 127}
                for unit in moved[2 * n - 2 : 2 * n]
            ],
        }
        for n in (1, 2)
    ]
    first = [_preset(n, units, rng) for n in range(1, presets + 1)]
    later = list(first)
    for place in rng.sample(range(presets), 6):
        later[place] = _preset(place + 1, units, rng) | {"name": f"Cue {place + 1}"}
    read = {chart["chart"]["id"]: read_chart(ChartShape.model_validate(chart)) for chart in charts}
    head = {"name": f"World {seed}", "controller": "feet"}
    cases = []
    for made in (later, first):
        whole = {"format": 1, "rig": head, "unit": rows, "cable": cables, "sweep": sweeps}
        cases.append(Case(resolve(RigShape.model_validate({**whole, "preset": made}), read)))
    return cases[0], cases[1]
