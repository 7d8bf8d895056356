"""A stored preset that takes clearly longer than the same messages in a better order."""

from collections.abc import Iterator

from thruline.base.measures import shown_ms
from thruline.proof.case import Case
from thruline.proof.evidence import times
from thruline.proof.example_memories import BANK, stored
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.slowness import slowest_units
from thruline.proof.understood import program_again
from thruline.rig.preset import Preset

WORTH_US = 20_000
"""Less than this nobody hears."""


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    takes = case.run(preset).right_us
    could = case.composed(preset).ordered.makespan_us
    if could and takes - could > WORTH_US:
        yield RULE.finding(
            f"preset {preset.title} takes {shown_ms(takes)} as it is stored; the same goals can "
            "be met "
            f"in {shown_ms(could)}",
            preset.address.child("messages"),
            evidence=[times(*slowest_units(case, preset), ("in the best order", shown_ms(could)))],
            mends=program_again(preset),
        )


_GOALS = 'delay = { program = "2A", mix = 64 }'

RULE = Rule(
    id=rule_id(__name__),
    title="Slower than it could be",
    severity=Severity.ADVICE,
    why=(
        "Pauses that were made long to be on the safe side, or messages that wait for units they "
        "do not need, make every change slower. The computed order waits exactly as long as it "
        "must."
    ),
    failing=stored(*BANK, "3: program 6", "wait 200 ms", "3: control 52 = 64", goals=_GOALS),
    passing=stored(*BANK, "3: program 6", "wait 45 ms", "3: control 52 = 64", goals=_GOALS),
    look_memory=_look,
)
