"""A control whose value depends on which preset one comes from."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.finding import Result, Severity
from thruline.proof.leftover_facts import left_over_findings, set_everywhere, untold
from thruline.proof.rule import Rule, rule_id
from thruline.sameness.columns import ColumnKind
from thruline.sameness.held import Cause


def _look(case: Case) -> Iterator[Result]:
    yield from left_over_findings(
        case, RULE, kind=ColumnKind.CONTROL, cause=Cause.PRESETS, mends=set_everywhere
    )
    yield from untold(case, RULE, ColumnKind.CONTROL)


RULE = Rule(
    id=rule_id(__name__),
    title="A control left over from earlier presets",
    severity=Severity.RISK,
    why=(
        "One preset sets a control and another neither sets it nor loads a program that "
        "does. What it is there depends on where you came from: right in rehearsal, wrong "
        "in the show. A preset that says what it needs is the same every time."
    ),
    failing=board(
        DELAY,
        TO_DELAY,
        a_preset(1, "Storm", "delay = { program = '2A', trails = 'on' }"),
        a_preset(2, "Calm", "delay = { program = '2B', trails = 'off' }"),
        a_preset(3, "Balcony", "delay = { program = '2C' }"),
    ),
    passing=board(
        DELAY,
        TO_DELAY,
        a_preset(1, "Storm", "delay = { program = '2A', trails = 'on' }"),
        a_preset(2, "Calm", "delay = { program = '2B', trails = 'off' }"),
        a_preset(3, "Balcony", "delay = { program = '2C', trails = 'off' }"),
    ),
    look_whole=_look,
)
