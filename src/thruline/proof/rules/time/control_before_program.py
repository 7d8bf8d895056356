"""A control change that a later program change of the same preset overwrites."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_memories import BANK, stored
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import program_again
from thruline.rig.preset import Preset


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    for unit_id, reception in case.run(preset).receptions.items():
        unit = case.rig.units[unit_id]
        for control_id in reception.before_program:
            control = unit.chart.controls[control_id]
            again = control_id in reception.values
            if control.stored is None:
                yield RULE.untold(
                    f"whether a program change of {unit.name} resets {control.name} cannot be told",
                    unit.address.child(control_id),
                    lacks=f"stored of control {control_id} in chart {unit.chart.id}",
                )
            elif control.stored and not again:
                yield RULE.finding(
                    f"preset {preset.title} sets {control.name} of {unit.name} and then loads a "
                    "program, "
                    "which sets it back",
                    preset.address.child("messages"),
                    unit.address.child(control_id),
                    evidence=[
                        facts(
                            (
                                "sent first",
                                f"{control.name} = {reception.before_program[control_id]}",
                            ),
                            ("sent after it", "program change"),
                        )
                    ],
                    mends=program_again(preset),
                )


RULE = Rule(
    id=rule_id(__name__),
    title="A control change before the program change",
    severity=Severity.FAULT,
    why=(
        "A program holds values of its own. A control change that comes before the program change "
        "does its work for a moment, and the loading program wipes it out."
    ),
    failing=stored("3: control 52 = 64", *BANK, "3: program 6"),
    passing=stored(*BANK, "3: program 6", "wait 60 ms", "3: control 52 = 64"),
    look_memory=_look,
)
