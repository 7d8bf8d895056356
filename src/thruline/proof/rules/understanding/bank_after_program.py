"""A bank select that comes after the program change it belongs to."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_memories import BANK, stored
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import Met, met, program_again, sent_rows
from thruline.rig.preset import Preset
from thruline.timing.sending import Purpose


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    by_unit: dict[str, list[Met]] = {}
    for one in met(case, preset):
        if one.item.purpose in (Purpose.BANK, Purpose.PROGRAM):
            by_unit.setdefault(one.unit.id, []).append(one)
    for sent in by_unit.values():
        kinds = [one.item.purpose for one in sent]
        if Purpose.PROGRAM in kinds and kinds[-1] is Purpose.BANK:
            unit = sent[0].unit
            yield RULE.finding(
                f"preset {preset.title} sends {unit.name} the bank after the program change: it "
                "counts "
                "for the next press, not for this one",
                preset.address.child("messages"),
                unit.address,
                evidence=[sent_rows(sent)],
                mends=program_again(preset),
            )


RULE = Rule(
    id=rule_id(__name__),
    title="Bank after the program change",
    severity=Severity.FAULT,
    why=(
        "Bank select alone changes nothing; the program change that follows uses it. Sent "
        "afterwards it waits for the next press, so everything comes one press late."
    ),
    failing=stored("3: program 6", *BANK),
    passing=stored(*BANK, "3: program 6"),
    look_memory=_look,
)
