"""A cable names a socket that the unit does not have."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, board
from thruline.proof.finding import Result, Severity
from thruline.proof.gaps import gap_findings
from thruline.proof.rule import Rule, rule_id
from thruline.rig.whole import Lack


def _look(case: Case) -> Iterator[Result]:
    return gap_findings(case, RULE, {Lack.SOCKET})


RULE = Rule(
    id=rule_id(__name__),
    title="A socket that the unit does not have",
    severity=Severity.FAULT,
    why=(
        "A cable or a sweep names a socket that is not in the unit's chart. The cable "
        "cannot be followed, so everything behind it counts as not plugged in."
    ),
    failing=board(DELAY, a_cable("feet.midi-out-1", "delay.midi-inn")),
    passing=board(DELAY, TO_DELAY),
    look_whole=_look,
)
