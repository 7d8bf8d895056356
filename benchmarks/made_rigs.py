"""Seeded rigs of any size, right by construction: a controller and a line of units behind it."""

import random
from collections.abc import Iterator
from typing import Any

from thruline.document.chart_shape import ChartShape
from thruline.document.rig_shape import RigShape
from thruline.rig.chart import Chart
from thruline.rig.read_chart import read_chart
from thruline.rig.resolve import resolve
from thruline.rig.whole import Rig

LINES = 4
"""Lines that leave the split box."""
IN = {"id": "midi-in", "kind": "midi-in", "connector": "din5", "isolated": True}
OUT = {"id": "midi-out", "kind": "midi-out", "connector": "din5"}


def controller_chart(presets: int) -> dict[str, Any]:
    """A controller that can order and pause."""
    return {
        "format": 1,
        "chart": {"id": "feet", "maker": "Made", "model": "Feet", "kind": "controller"},
        "socket": [
            OUT,
            {"id": "exp-1", "kind": "expression-in", "connector": "trs-6.35"},
            {"id": "exp-2", "kind": "expression-in", "connector": "trs-6.35"},
        ],
        "output": [{"socket": "midi-out", "ways": ["own"], "running-status": False}],
        "pedal": [
            {"socket": f"exp-{n}", "moves": 4, "curves": ["linear", "s"], "on-recall": True}
            | {"interval-ms": 20}
            for n in (1, 2)
        ],
        "controller": {
            "presets": max(128, presets),
            "messages": 512,
            "pauses": {"step-ms": 1, "longest-ms": 500},
            "running-status": False,
            "sends": ["program", "bank", "control", "control-14", "parameter"],
        },
    }


def split_chart() -> dict[str, Any]:
    """A box that copies its input to several outputs."""
    outs = [f"out-{number}" for number in range(1, LINES + 1)]
    return {
        "format": 1,
        "chart": {"id": "split", "maker": "Made", "model": "Split", "kind": "MIDI split"},
        "socket": [IN, *({"id": out, "kind": "midi-out", "connector": "din5"} for out in outs)],
        "output": [{"socket": out, "ways": ["thru-wire"], "skew-ns": 300} for out in outs],
    }


def pedal_chart() -> dict[str, Any]:
    """A good expression pedal."""
    return {
        "format": 1,
        "chart": {"id": "treadle", "maker": "Made", "model": "Treadle", "kind": "expression"},
        "socket": [{"id": "out", "kind": "expression-out", "connector": "trs-6.35"}],
        "expression": {"wiring": "wiper-on-tip", "ohms": 10000, "taper": "linear"},
    }


def unit_chart(number: int, rng: random.Random, *, controls: int) -> dict[str, Any]:
    """A unit with a settle time, programs and plain controls."""
    wire = number % 3 == 0
    output: dict[str, Any] = {"socket": "midi-out", "ways": ["thru-wire" if wire else "thru-soft"]}
    output |= {"skew-ns": 500} if wire else {"latency-us": rng.randrange(50, 400)}
    return {
        "format": 1,
        "chart": {
            "id": f"box-{number}",
            "maker": "Made",
            "model": f"Box {number}",
            "kind": "delay",
        },
        "socket": [IN, OUT],
        "output": [output | {"running-status": False}],
        "channel": {"factory": 1},
        "programs": {
            "banks": {"count": 32, "first": 1},
            "slots": {"count": 4, "first": "A"},
            "bank-select": "lsb" if number % 4 == 0 else "none",
        },
        "control": [
            {"id": f"knob-{k}", "name": f"Knob {k}", "number": 102 + k, "stored": True}
            | {"expression": "good"}
            for k in range(controls)
        ],
        "settle": {"ms": rng.randrange(8, 40), "controls": "lost"},
        "receive": {"program": True, "control": True, "clock": False},
    }


def made_charts(seed: int, *, units: int, controls: int, presets: int) -> dict[str, Chart]:
    """Charts of a made rig, by id."""
    rng = random.Random(seed)
    boxes = [unit_chart(n, rng, controls=controls) for n in range(1, units + 1)]
    documents = [controller_chart(presets), pedal_chart(), split_chart(), *boxes]
    return {one["chart"]["id"]: read_chart(ChartShape.model_validate(one)) for one in documents}


def made_document(
    seed: int, *, units: int = 16, presets: int = 128, controls: int = 8
) -> dict[str, Any]:
    """The plain data of a rig document.

    Every preset recalls a program of every unit and sets some of its controls; two sweeps.
    """
    rng = random.Random(seed + 1)
    boxes = [f"box-{number}" for number in range(1, units + 1)]
    return {
        "format": 1,
        "rig": {"name": "Made", "controller": "feet", "slowest-change-ms": 1000},
        "unit": [
            {"id": "feet", "chart": "feet"},
            {"id": "split", "chart": "split"},
            {"id": "treadle-1", "chart": "treadle"},
            {"id": "treadle-2", "chart": "treadle"},
            *({"id": box, "chart": box, "channel": n} for n, box in enumerate(boxes, 1)),
        ],
        "cable": [
            *(
                {"from": a, "to": f"{b}.midi-in", "ends": "din5/din5", "length": 300}
                for a, b in _lines(boxes)
            ),
            *(
                {"from": f"treadle-{n}.out", "to": f"feet.exp-{n}", "ends": "trs-6.35/trs-6.35"}
                for n in (1, 2)
            ),
        ],
        "preset": [_preset(n, boxes, rng, controls=controls) for n in range(1, presets + 1)],
        "sweep": [_sweep(n, boxes, rng, controls=controls) for n in (1, 2)],
    }


def _lines(boxes: list[str]) -> Iterator[tuple[str, str]]:
    """Cables: the controller into a split box, and from each of its outputs a line of units."""
    yield "feet.midi-out", "split"
    for place, box in enumerate(boxes):
        line, depth = place % LINES, place // LINES
        before = f"split.out-{line + 1}" if depth == 0 else f"{boxes[place - LINES]}.midi-out"
        yield before, box


def _preset(number: int, boxes: list[str], rng: random.Random, *, controls: int) -> dict[str, Any]:
    goals = {}
    for box in boxes:
        goal: dict[str, Any] = {"program": f"{rng.randrange(1, 33)}{rng.choice('ABCD')}"}
        for k in rng.sample(range(controls), rng.randrange(3)):
            goal[f"knob-{k}"] = rng.randrange(128)
        goals[box] = goal
    return {"number": number, "name": f"Cue {number}", **goals}


def _sweep(number: int, boxes: list[str], rng: random.Random, *, controls: int) -> dict[str, Any]:
    box = boxes[number % len(boxes)]
    return {
        "name": f"Sweep {number}",
        "pedal": f"feet.exp-{number}",
        "presets": "all",
        "moves": [
            {"unit": box, "control": f"knob-{rng.randrange(controls)}", "heel": 0, "toe": 127}
        ],
    }


def made_rig(seed: int, *, units: int = 16, presets: int = 128, controls: int = 8) -> Rig:
    """A made rig, resolved."""
    document = made_document(seed, units=units, presets=presets, controls=controls)
    charts = made_charts(seed, units=units, controls=controls, presets=presets)
    return resolve(RigShape.model_validate(document), charts)
