"""A cable has a plug or a wiring that cannot be."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, board
from thruline.proof.finding import Result, Severity
from thruline.proof.gaps import gap_findings
from thruline.proof.rule import Rule, rule_id
from thruline.rig.whole import Lack


def _look(case: Case) -> Iterator[Result]:
    return gap_findings(case, RULE, {Lack.PLUG, Lack.WIRING})


RULE = Rule(
    id=rule_id(__name__),
    title="A cable that cannot be made",
    severity=Severity.FAULT,
    why=(
        "The ends of a cable name a plug that does not exist, or its wiring makes no sense "
        "between these two plugs. The cable is left out, so everything behind it counts as "
        "not plugged in."
    ),
    failing=board(DELAY, a_cable("feet.midi-out-1", "delay.midi-in", ends="din5/din6")),
    passing=board(DELAY, TO_DELAY),
    look_whole=_look,
)
