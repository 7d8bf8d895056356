"""A preset or a sweep names a control that the unit's chart does not have."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, a_preset, board
from thruline.proof.finding import Result, Severity
from thruline.proof.gaps import gap_findings
from thruline.proof.rule import Rule, rule_id
from thruline.rig.whole import Lack


def _look(case: Case) -> Iterator[Result]:
    return gap_findings(case, RULE, {Lack.CONTROL})


RULE = Rule(
    id=rule_id(__name__),
    title="A control that the unit does not have",
    severity=Severity.FAULT,
    why=(
        "A preset or a sweep names a control that is not in the unit's chart, so no message "
        "can be made for it and the unit stays as it was. Either the name is wrong or the "
        "chart is not complete."
    ),
    failing=board(DELAY, a_preset(1, "Overture", 'delay = { program = "2A", mixx = 64 }')),
    passing=board(DELAY, a_preset(1, "Overture", 'delay = { program = "2A", mix = 64 }')),
    look_whole=_look,
)
