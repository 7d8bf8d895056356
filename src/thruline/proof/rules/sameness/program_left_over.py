"""A unit whose program depends on which preset one comes from."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.finding import Result, Severity
from thruline.proof.leftover_facts import left_over_findings
from thruline.proof.rule import Rule, rule_id
from thruline.sameness.columns import ColumnKind


def _look(case: Case) -> Iterator[Result]:
    return left_over_findings(case, RULE, kind=ColumnKind.PROGRAM)


RULE = Rule(
    id=rule_id(__name__),
    title="A program left over",
    severity=Severity.RISK,
    why=(
        "Some presets recall a program of this unit and others say nothing of it. There it "
        "stays on whatever program the preset before has used."
    ),
    failing=board(
        DELAY,
        TO_DELAY,
        a_preset(1, "Storm", "delay = { program = '2A' }"),
        a_preset(2, "Calm", "delay = { program = '2B' }"),
        a_preset(3, "Balcony", "delay = { trails = 'on' }"),
    ),
    passing=board(
        DELAY,
        TO_DELAY,
        a_preset(1, "Storm", "delay = { program = '2A' }"),
        a_preset(2, "Calm", "delay = { program = '2B' }"),
        a_preset(3, "Balcony", "delay = { program = '2C', trails = 'on' }"),
    ),
    look_whole=_look,
)
