"""A preset wants a value that the control cannot have."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.value_mends import nearest_value
from thruline.rig.preset import Preset
from thruline.rig.values import NotUnderstood


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    for goal in preset.goals:
        for one in goal.controls:
            if not isinstance(one.value, NotUnderstood):
                continue
            unit = case.rig.units[goal.unit]
            where = preset.address.child(goal.unit).child(one.control.id)
            yield RULE.finding(
                f"preset {preset.title} wants {one.control.name} of {unit.name} at "
                f"{one.value.written}: {one.value.why}; write for example {one.value.example}",
                where,
                evidence=[
                    facts(("written", one.value.written), ("for example", one.value.example))
                ],
                mends=nearest_value(one.control, one.value, where),
            )


RULE = Rule(
    id=rule_id(__name__),
    title="A value that the control cannot have",
    severity=Severity.FAULT,
    why=(
        "The value is outside what the control takes, or written in a way that means nothing for "
        "it. No message can be made of it, so the control stays as it was."
    ),
    failing=board(
        DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2A", mix = 200 }')
    ),
    passing=board(
        DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2A", mix = 100 }')
    ),
    look_preset=_look,
)
