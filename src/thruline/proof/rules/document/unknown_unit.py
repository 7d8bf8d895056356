"""The document names a unit that is not on the board."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.finding import Result, Severity
from thruline.proof.gaps import unit_findings
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    return unit_findings(case, RULE)


RULE = Rule(
    id=rule_id(__name__),
    title="A unit that is not on the board",
    severity=Severity.FAULT,
    why=(
        "A preset, cable, sweep or audio path names a unit by an id that no unit has. Nothing is "
        "sent to it and nothing is plugged into it, most often because of a slip of the keyboard "
        "or because the unit was renamed in one place only."
    ),
    failing=board(DELAY, TO_DELAY, a_preset(1, "Overture", 'dealy = { program = "2A" }')),
    passing=board(DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2A" }')),
    look_whole=_look,
)
