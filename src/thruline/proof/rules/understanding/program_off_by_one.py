"""A stored program number that is one too high or too low."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_memories import BANK, stored
from thruline.proof.finding import Result, Severity
from thruline.proof.memories import wrong_programs
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import program_again
from thruline.rig.preset import Preset


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    for one in wrong_programs(case, preset):
        if one.off_by in (1, -1) and one.got is not None:
            controller = case.rig.controller
            abilities = controller.chart.abilities if controller else None
            base = abilities.programs_from if abilities else 0
            yield RULE.finding(
                f"preset {preset.title} loads {one.got_label} of {one.unit.name} and wants "
                f"{one.label}: the number in the controller is one too {_word(one.off_by)}",
                preset.address.child("messages"),
                one.unit.address,
                evidence=[
                    facts(
                        ("wanted", f"{one.label}, program {one.wanted.program} on the wire"),
                        ("sent", f"program {one.got.program} on the wire: {one.got_label}"),
                        ("the controller's screen", f"counts programs from {base}"),
                        ("to enter", f"program {one.wanted.program + base}"),
                    )
                ],
                mends=program_again(preset),
            )


def _word(off_by: int) -> str:
    return "high" if off_by > 0 else "low"


RULE = Rule(
    id=rule_id(__name__),
    title="Program numbers off by one",
    severity=Severity.FAULT,
    why=(
        "On the wire programs count from 0. Screens count from 0 or from 1, each as its maker "
        "liked. Whoever copies a number from one screen to another is one off, always in the same "
        "direction."
    ),
    failing=stored(*BANK, "3: program 7"),
    passing=stored(*BANK, "3: program 6"),
    look_memory=_look,
)
