"""A stored preset that loads another program than wanted, or none."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_memories import BANK, stored
from thruline.proof.finding import Result, Severity
from thruline.proof.memories import wrong_programs
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import met, program_again, sent_rows
from thruline.rig.preset import Preset
from thruline.timing.sending import Purpose


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    for one in wrong_programs(case, preset):
        if one.off_by in (1, -1):
            continue
        sent = [
            each
            for each in met(case, preset)
            if each.unit is one.unit and each.item.purpose is not Purpose.CONTROL
        ]
        yield RULE.finding(
            f"preset {preset.title} wants {one.label} of {one.unit.name}, and what the controller "
            f"holds gives {one.got_label}",
            preset.address.child("messages"),
            one.unit.address,
            evidence=[sent_rows(sent)],
            mends=program_again(preset),
        )


RULE = Rule(
    id=rule_id(__name__),
    title="Another program than wanted",
    severity=Severity.FAULT,
    why=(
        "What stands in the controller's memory loads another program than the preset is meant "
        "to, or one that the unit does not have. Most often an older plan is still in there."
    ),
    failing=stored(*BANK, "3: program 40"),
    passing=stored(*BANK, "3: program 6"),
    look_memory=_look,
)
