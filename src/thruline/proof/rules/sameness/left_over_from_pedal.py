"""A control whose value depends on where a pedal was left."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, a_sweep, board
from thruline.proof.finding import Result, Severity
from thruline.proof.leftover_facts import left_over_findings, set_everywhere
from thruline.proof.rule import Rule, rule_id
from thruline.sameness.columns import ColumnKind
from thruline.sameness.held import Cause


def _look(case: Case) -> Iterator[Result]:
    return left_over_findings(
        case, RULE, kind=ColumnKind.CONTROL, cause=Cause.PEDAL, mends=set_everywhere
    )


RULE = Rule(
    id=rule_id(__name__),
    title="A control left over from a pedal",
    severity=Severity.RISK,
    why=(
        "A pedal moves a control on some presets, and the next preset does not set it back. "
        "It keeps whatever the foot has left, so the preset sounds different after every "
        "ride."
    ),
    failing=board(
        DELAY,
        TO_DELAY,
        a_preset(1, "Storm", "delay = { program = '2A', trails = 'off' }"),
        a_preset(2, "Calm", "delay = { program = '2B' }"),
        a_sweep("Swell", "unit = 'delay', control = 'trails', heel = 0, toe = 127", presets="[1]"),
    ),
    passing=board(
        DELAY,
        TO_DELAY,
        a_preset(1, "Storm", "delay = { program = '2A', trails = 'off' }"),
        a_preset(2, "Calm", "delay = { program = '2B', trails = 'off' }"),
        a_sweep("Swell", "unit = 'delay', control = 'trails', heel = 0, toe = 127", presets="[1]"),
    ),
    look_whole=_look,
)
