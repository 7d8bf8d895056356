"""Seeded boards for the fault finder: chains and trees of units behind one controller."""

import random
from typing import Any

from thruline.document.chart_shape import ChartShape
from thruline.document.rig_shape import RigShape
from thruline.rig.read_chart import read_chart
from thruline.rig.resolve import resolve
from thruline.rig.whole import Rig

IN = {"id": "midi-in", "kind": "midi-in", "isolated": True}
OUT = {"id": "midi-out", "kind": "midi-out"}


def _setting(setting: str, governs: str, values: tuple[str, str], **more: object) -> dict[str, Any]:
    return {
        "id": setting, "name": setting.upper(), "values": list(values), "factory": values[0],
        "where": "MENU", "governs": governs, **more,
    }  # fmt: skip


def _controller() -> dict[str, Any]:
    out = {**OUT, "connector": "din5"}
    return {
        "format": 1,
        "chart": {"id": "feet", "maker": "Made", "model": "Feet", "kind": "controller"},
        "socket": [out],
        "output": [{"socket": "midi-out", "ways": ["own", "off"]}],
        "setting": [_setting("out", "output", ("own", "off"), socket="midi-out")],
        "controller": {"presets": 128, "messages": 64, "sends": ["program", "control"]},
    }


def _box(number: int, rng: random.Random) -> dict[str, Any]:
    taken = rng.choice(({"connector": "din5"}, {"connector": "trs-3.5", "wiring": "type-a"}))
    return {
        "format": 1,
        "chart": {
            "id": f"box-{number}", "maker": "Made", "model": f"Box {number}", "kind": "delay",
        },
        "socket": [{**IN, **taken}, {**OUT, "connector": "din5"}],
        "output": [{"socket": "midi-out", "ways": ["thru-soft", "off"], "latency-us": 200}],
        "setting": [
            _setting("out", "output", ("thru-soft", "off"), socket="midi-out"),
            _setting("receive", "program-receive", ("on", "off")),
        ],
        "channel": {"factory": 16},
        "programs": {"slots": {"count": 128, "first": 1}},
        "receive": {"program": True, "control": True, "clock": False},
    }  # fmt: skip


def _split() -> dict[str, Any]:
    outs = [f"out-{number}" for number in (1, 2, 3)]
    return {
        "format": 1,
        "chart": {"id": "split", "maker": "Made", "model": "Split", "kind": "MIDI split"},
        "socket": [
            {**IN, "connector": "din5"},
            *({"id": out, "kind": "midi-out", "connector": "din5"} for out in outs),
        ],
        "output": [{"socket": out, "ways": ["thru-wire"]} for out in outs],
    }


def board(seed: int, units: int, *, tree: bool) -> Rig:
    """A board of so many units: one line of them, or lines behind a split box."""
    rng = random.Random(seed * 1000 + units * 2 + tree)
    boxes = [f"box-{number}" for number in range(1, units + 1)]
    charts = [_controller(), _split(), *(_box(n, rng) for n in range(1, units + 1))]
    takes = {f"box-{n}": chart["socket"][0]["connector"] for n, chart in enumerate(charts[2:], 1)}
    channels = rng.sample(range(2, 15), units)
    cables = [
        {"from": start, "to": f"{stop}.midi-in", "ends": f"din5/{takes.get(stop, 'din5')}"}
        for start, stop in _lines(boxes, rng, tree=tree)
    ]
    goals = {box: rng.randrange(3, 120) for box in boxes}
    document = {
        "format": 1,
        "rig": {"name": f"Made {seed}", "controller": "feet"},
        "unit": [
            {"id": "feet", "chart": "feet"},
            *([{"id": "split", "chart": "split"}] if tree else []),
            *(
                {"id": box, "chart": box, "channel": n}
                for box, n in zip(boxes, channels, strict=True)
            ),
        ],
        "cable": cables,
        "preset": [{"number": 1, "name": "Test", **{b: {"program": p} for b, p in goals.items()}}],
    }
    read = (read_chart(ChartShape.model_validate(one)) for one in charts)
    return resolve(RigShape.model_validate(document), {chart.id: chart for chart in read})


def _lines(boxes: list[str], rng: random.Random, *, tree: bool) -> list[tuple[str, str]]:
    if not tree:
        starts = ["feet.midi-out", *(f"{box}.midi-out" for box in boxes[:-1])]
        return list(zip(starts, boxes, strict=True))
    ends = [f"split.out-{number}" for number in (1, 2, 3)]
    cables = [("feet.midi-out", "split")]
    for box in boxes:
        place = rng.randrange(len(ends))
        cables.append((ends[place], box))
        ends[place] = f"{box}.midi-out"
    return cables
