"""A preset needs a kind of message that the controller cannot send."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.preset import Preset
from thruline.rig.values import ControlMessage
from thruline.rig.whole import Rig
from thruline.timing.sending import Item, Purpose

WORDS = {
    "program": "program changes",
    "bank": "bank select",
    "control": "control changes",
    "control-14": "14-bit control changes",
    "parameter": "registered and non-registered parameters",
    "raw": "other messages",
}


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    controller = case.rig.controller
    abilities = controller.chart.abilities if controller else None
    if controller is None or abilities is None:
        return
    needed: dict[str, set[str]] = {}
    for item in case.run(preset).sending.items:
        kind = _kind(case.rig, item)
        if kind not in abilities.sends:
            needed.setdefault(kind, set()).add(item.unit or "other")
    for kind, units in needed.items():
        names = " and ".join(sorted(units))
        yield RULE.finding(
            f"preset {preset.title} needs {WORDS[kind]} for {names}; {controller.name} cannot "
            "send them",
            preset.address,
            evidence=[
                facts(
                    (
                        controller.name,
                        "sends " + ", ".join(WORDS[one] for one in sorted(abilities.sends)),
                    )
                )
            ],
        )


def _kind(rig: Rig, item: Item) -> str:
    """The kind of ability that a message asks of the controller."""
    match item.purpose:
        case Purpose.PROGRAM:
            return "program"
        case Purpose.BANK:
            return "bank"
        case Purpose.OTHER:
            return "raw"
        case Purpose.CONTROL:
            unit = rig.units.get(item.unit or "")
            control = unit.chart.controls.get(item.part or "") if unit else None
    match control.message if control else ControlMessage.CC:
        case ControlMessage.CC:
            return "control"
        case ControlMessage.CC14:
            return "control-14"
        case _:
            return "parameter"


RULE = Rule(
    id=rule_id(__name__),
    title="A kind of message that the controller cannot send",
    severity=Severity.FAULT,
    why=(
        "Small controllers send plain program and control changes and nothing else. What needs a "
        "14-bit pair, a parameter or a bank stays as it was."
    ),
    failing=board(
        DELAY,
        TO_DELAY,
        a_preset(1, "Overture", 'delay = { program = "2A", time = 3000 }'),
        controller="quarrenden-three",
    ),
    passing=board(
        DELAY,
        TO_DELAY,
        a_preset(1, "Overture", 'delay = { program = "2A", mix = 64 }'),
        controller="quarrenden-three",
    ),
    look_preset=_look,
)
