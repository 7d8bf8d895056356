"""A preset needs a kind of message that the controller cannot send."""

from collections.abc import Iterator, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import some_presets
from thruline.rig.preset import Preset
from thruline.rig.values import ControlMessage
from thruline.rig.whole import Rig
from thruline.timing.sending import Item, Purpose

RAW = "raw"
WORDS = {
    "program": "program changes",
    "bank": "bank select",
    "control": "control changes",
    "control-14": "14-bit control changes",
    "parameter": "registered and non-registered parameters",
    RAW: "other messages",
}


def _look(case: Case) -> Iterator[Result]:
    controller = case.rig.controller
    abilities = controller.chart.abilities if controller else None
    if controller is None or abilities is None:
        return
    sends = ", ".join(WORDS[one] for one in sorted(abilities.sends)) or "nothing"
    for kind, need in _needs(case, WORDS.keys() - abilities.sends).items():
        yield RULE.finding(
            f"{controller.name} cannot send {WORDS[kind]}, which {' and '.join(need.units)} "
            f"need{'' if len(need.units) > 1 else 's'} in {_count(need.presets)}",
            controller.address.child("sends", kind),
            evidence=[
                facts((controller.name, f"sends {sends}"), ("presets", some_presets(need.presets)))
            ],
        )


@dataclass(frozen=True, slots=True)
class _Need:
    """Where a kind of message is needed: presets, and units by name."""

    presets: list[Preset]
    units: dict[str, None]


def _needs(case: Case, missing: AbstractSet[str]) -> dict[str, _Need]:
    """The kinds of message that are needed and missing."""
    found: dict[str, _Need] = {}
    composed = missing - {RAW}  # nobody composes other messages, they can only stand in a memory
    for preset in case.rig.presets if composed else case.with_memory if missing else ():
        for item in case.run(preset).sending.items:
            kind = _kind(case.rig, item)
            if kind in missing:
                need = found.setdefault(kind, _Need([], {}))
                if preset not in need.presets[-1:]:
                    need.presets.append(preset)
                unit = case.rig.units.get(item.unit or "")
                need.units[unit.name if unit else "something"] = None
    return found


def _count(presets: Sequence[Preset]) -> str:
    return f"preset {presets[0].title}" if len(presets) == 1 else f"{len(presets)} presets"


def _kind(rig: Rig, item: Item) -> str:
    """The kind of ability that a message asks of the controller."""
    match item.purpose:
        case Purpose.PROGRAM:
            return "program"
        case Purpose.BANK:
            return "bank"
        case Purpose.OTHER:
            return RAW
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
    look_whole=_look,
)
