"""Whole rigs for tests: a foot controller, a delay with programs and banks, a looper, a drive in a
loop; presets are the very messages that the controller sends."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from tests.rigs import make_cable, make_chart, make_controller, make_rig, make_unit, midi_out
from thruline.compose.stored import stored_sending
from thruline.path.hearing import read_hearing
from thruline.path.network import read_network
from thruline.rig.preset import Preset
from thruline.rig.whole import Rig
from thruline.sameness.columns import Layout, layout_of
from thruline.sameness.effects import EffectTable, effect_table
from thruline.sameness.strokes import Strokes, strokes_of
from thruline.timing.roads import roads_of
from thruline.timing.run import Hand, Run, listeners_of, run_all

MIX = {"id": "mix", "name": "Mix", "number": 14, "stored": True}
LEVEL = {"id": "level", "name": "Level", "number": 7, "stored": False, "power-up": 100}
TRAILS = {"id": "trails", "name": "Trails", "number": 19, "kind": "switch", "stored": False}
DIVISION = {
    "id": "division",
    "name": "Division",
    "number": 18,
    "kind": "steps",
    "zones": [
        {"label": "quarter", "low": 0, "high": 40},
        {"label": "eighth", "low": 80, "high": 127},
    ],
    "stored": True,
}
TIME = {"id": "time", "name": "Time", "number": 16, "message": "cc14", "high": 16383}
"""Whether programs store it, nobody has looked up."""
RECORD = {"id": "record", "name": "Record", "number": 102, "kind": "toggle-any", "stored": False}
HOLD = {"id": "hold", "name": "Hold", "number": 80, "kind": "momentary"}
PROGRAMS = {"slots": {"count": 128, "first": 0}}
BANKS = {
    "banks": {"count": 4, "first": 1},
    "slots": {"count": 128, "first": 0},
    "separator": ".",
    "bank-select": "both",
}


def delay_chart(**more: Any) -> dict[str, Any]:
    made = {
        "control": [MIX, LEVEL, TRAILS, DIVISION, TIME, RECORD, HOLD],
        "programs": PROGRAMS,
        "settle": {"ms": 20, "controls": "obeyed"},
    }
    return make_chart("bramley", **{**made, **more})


def board(
    presets: Sequence[Sequence[str] | Mapping[str, Any]],
    sweeps: Sequence[Mapping[str, Any]] = (),
    *,
    chart: Mapping[str, Any] | None = None,
    on_recall: bool = False,
    **more: Any,
) -> Rig:
    """feet -> delay (channel 3) -> reverb (channel 4, the same model), a drive in a relay loop."""
    documents = [
        {"number": number + 1, "name": f"P{number + 1}"}
        | (dict(one) if isinstance(one, Mapping) else {"messages": list(one)})
        for number, one in enumerate(presets)
    ]
    feet = make_controller(
        sockets=[
            midi_out(),
            *({"id": f"exp-{n}", "kind": "expression-in", "connector": "trs-6.35"} for n in (1, 2)),
            *({"id": f"send-{n}", "kind": "audio-out", "connector": "ts-6.35"} for n in (1, 2)),
            *({"id": f"back-{n}", "kind": "audio-in", "connector": "ts-6.35"} for n in (1, 2)),
        ],
        pedal=[{"socket": f"exp-{n}", "moves": 4, "on-recall": on_recall} for n in (1, 2)],
        loop=[{"id": f"loop-{n}", "send": f"send-{n}", "return": f"back-{n}"} for n in (1, 2)],
    )
    return make_rig(
        [
            make_unit("feet", "braeburn"),
            make_unit("delay", "bramley", channel=3),
            make_unit("reverb", "bramley", channel=4),
            make_unit("drive", "russet"),
        ],
        [
            make_cable("feet.midi-out", "delay.midi-in"),
            make_cable("delay.midi-out", "reverb.midi-in"),
        ],
        [feet, chart or delay_chart(), make_chart("russet", [], channel=None)],
        preset=documents,
        sweep=list(sweeps),
        audio={"path": ["guitar", "feet.loop-1[drive]", "delay", "amp"]},
        **more,
    )


def sweep(
    *moves: tuple[str, str, object, object], presets: object = "all", pedal: str = "feet.exp-1"
) -> dict[str, Any]:
    """A sweep; a move is unit, control, heel, toe."""
    return {
        "name": f"Swell {pedal[-1]}",
        "pedal": pedal,
        "presets": presets,
        "moves": [
            {"unit": unit, "control": name, "heel": heel, "toe": toe, "curve": "linear"}
            for unit, name, heel, toe in moves
        ],
    }


@dataclass(frozen=True)
class Looked:
    """A rig and all that sameness is given of it."""

    rig: Rig
    layout: Layout
    runs: tuple[Run, ...]
    strokes: Strokes
    table: EffectTable

    def column(self, part: str, unit: str = "delay", **kind: Any) -> int:
        return self.layout.find(unit, part, **kind)

    def effects(self, part: str, unit: str = "delay", **kind: Any) -> list[int]:
        return self.table.effects[:, self.column(part, unit, **kind)].tolist()

    def asks(self, part: str, unit: str = "delay", **kind: Any) -> list[bool]:
        return self.table.asks[:, self.column(part, unit, **kind)].tolist()


def runs_of(rig: Rig, presets: Sequence[Preset]) -> tuple[Run, ...]:
    roads = roads_of(read_network(rig), rig.controller)
    sendings = [stored_sending(preset.stored or (), rig.units) for preset in presets]
    return run_all(
        roads,
        listeners_of(rig.units.values()),
        sendings=sendings,
        hand=Hand(gap_us=1000, running_status=False),
    )


def look(rig: Rig) -> Looked:
    layout = layout_of(rig)
    runs = runs_of(rig, rig.presets)
    strokes = strokes_of(rig, read_hearing(read_network(rig)), layout)
    table = effect_table(layout, rig.presets, runs, strokes=strokes)
    return Looked(rig, layout, runs, strokes, table)
