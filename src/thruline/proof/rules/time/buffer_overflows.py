"""A unit on the way that has no room for what comes in."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import sent
from thruline.proof.example_boards import a_cable, a_preset, a_unit, board
from thruline.proof.example_charts import a_box
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Example, Rule, rule_id
from thruline.proof.understood import counted, message_words
from thruline.rig.preset import Preset


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    run = case.run(preset)
    if run.lost:
        items = [run.sending.items[place] for place in run.lost]
        units = dict.fromkeys(item.unit or "other" for item in items)
        names = ", ".join(case.rig.units[unit].name for unit in units if unit in case.rig.units)
        yield RULE.finding(
            f"preset {preset.title} loses {counted(len(items), 'message')} for {names}: a unit on "
            "the way has no room",
            preset.address,
            *(case.rig.units[unit].address for unit in units if unit in case.rig.units),
            evidence=[sent(*((message_words(item.data), "no room") for item in items[:6]))],
        )


def _rig(room: int) -> Example:
    about = "An invented box that passes messages on late and from a small store."
    rows = ("latency-us = 9000", f"buffer-bytes = {room}")
    return board(
        a_unit("box", "narrow"),
        a_unit("delay", "bramley-delay", "channel = 3"),
        a_cable("feet.midi-out-1", "box.midi-in"),
        a_cable("box.midi-out", "delay.midi-in"),
        a_preset(1, "Overture", 'delay = { program = "2A" }'),
        charts=(a_box("narrow", *rows, kind="MIDI delay line", about=about),),
    )


RULE = Rule(
    id=rule_id(__name__),
    title="A buffer that overflows",
    severity=Severity.FAULT,
    why=(
        "A unit that passes messages on keeps them until it can send them. When more come than it "
        "has room for, some are dropped, and only in the busiest moments."
    ),
    failing=_rig(4),
    passing=_rig(64),
    look_preset=_look,
)
