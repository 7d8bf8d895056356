"""A stored control change whose number the unit's chart does not know."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_memories import BANK, stored
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import Met, message_words, met, program_again, sent_rows
from thruline.rig.preset import Preset
from thruline.timing.fate import Fate


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    groups: dict[tuple[str, int], list[Met]] = {}
    for one in met(case, preset):
        if one.fate is Fate.NO_CONTROL:
            groups.setdefault((one.unit.id, one.item.data[1]), []).append(one)
    for ones in groups.values():
        first = ones[0]
        known = sorted(first.unit.chart.readings.plain)
        yield RULE.finding(
            f"preset {preset.title} sends {first.unit.name} {message_words(first.item.data)}; "
            "its chart has no control of that number",
            preset.address.child("messages"),
            first.unit.address.child(f"control-{first.item.data[1]}"),
            evidence=[
                sent_rows(ones),
                facts(("numbers it knows", ", ".join(map(str, known)))),
            ],
            mends=program_again(preset),
        )


RULE = Rule(
    id=rule_id(__name__),
    title="A control number that the unit does not know",
    severity=Severity.FAULT,
    why=(
        "The unit ignores control numbers that it has no use for, without a word. A digit was "
        "mistyped, or the number is from another unit's chart."
    ),
    failing=stored(*BANK, "3: program 6", "wait 60 ms", "3: control 41 = 64"),
    passing=stored(*BANK, "3: program 6", "wait 60 ms", "3: control 52 = 64"),
    look_memory=_look,
)
