"""A control that is right only after some other preset was pressed first."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.finding import Result, Severity
from thruline.proof.leftover_facts import left_over_findings, set_everywhere
from thruline.proof.rule import Rule, rule_id
from thruline.sameness.columns import ColumnKind
from thruline.sameness.held import Cause


def _look(case: Case) -> Iterator[Result]:
    return left_over_findings(
        case, RULE, kind=ColumnKind.CONTROL, cause=Cause.POWER_UP, mends=set_everywhere
    )


RULE = Rule(
    id=rule_id(__name__),
    title="A control that waits for its first preset",
    severity=Severity.RISK,
    why=(
        "All presets agree on the value, and only some of them send it. Until one of those "
        "has been pressed after power-up, the control is whatever the unit starts with."
    ),
    failing=board(
        DELAY,
        TO_DELAY,
        a_preset(1, "Storm", "delay = { program = '2A', trails = 'off' }"),
        a_preset(2, "Calm", "delay = { program = '2B' }"),
    ),
    passing=board(
        DELAY,
        TO_DELAY,
        a_preset(1, "Storm", "delay = { program = '2A', trails = 'off' }"),
        a_preset(2, "Calm", "delay = { program = '2B', trails = 'off' }"),
    ),
    look_whole=_look,
)
