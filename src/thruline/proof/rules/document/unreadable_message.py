"""A message in the controller's memory is written in no known way."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_boards import a_preset, board
from thruline.proof.finding import Result, Severity
from thruline.proof.gaps import gap_findings
from thruline.proof.rule import Rule, rule_id
from thruline.rig.whole import Lack


def _look(case: Case) -> Iterator[Result]:
    return gap_findings(case, RULE, {Lack.MESSAGE})


RULE = Rule(
    id=rule_id(__name__),
    title="A message that cannot be read",
    severity=Severity.FAULT,
    why=(
        "What the controller's memory holds is written down in a way that stands for no "
        "message, so it is left out of everything that is computed. A channel is 1 to 16; "
        "numbers and values end at 127."
    ),
    failing=board(a_preset(1, "Overture", 'messages = ["17: program 3"]')),
    passing=board(a_preset(1, "Overture", 'messages = ["3: program 3"]')),
    look_whole=_look,
)
