"""A program change that relies on the bank that some earlier preset has left."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_memories import BANK, stored
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import met, program_again, sent_rows
from thruline.rig.preset import Preset
from thruline.timing.sending import Purpose


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    for unit_id, reception in case.run(preset).receptions.items():
        if not reception.old_bank:
            continue
        unit = case.rig.units[unit_id]
        sent = [
            one
            for one in met(case, preset)
            if one.unit is unit and one.item.purpose is not Purpose.CONTROL
        ]
        yield RULE.finding(
            f"preset {preset.title} changes the program of {unit.name} without all of its bank: "
            "which "
            "program that is depends on the preset before",
            preset.address.child("messages"),
            unit.address,
            evidence=[sent_rows(sent)],
            mends=program_again(preset),
        )


RULE = Rule(
    id=rule_id(__name__),
    title="The bank is left from before",
    severity=Severity.FAULT,
    why=(
        "A unit keeps the bank it was last told. A program change alone then lands in whatever "
        "bank the preset before has used, so the same press gives different sounds. Both bank "
        "bytes before every program change cost two milliseconds and end that."
    ),
    failing=stored("3: program 6"),
    passing=stored(*BANK, "3: program 6"),
    look_memory=_look,
)
