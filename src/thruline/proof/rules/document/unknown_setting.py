"""A unit is given a setting or a choice that it does not have."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_boards import a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.gaps import gap_findings
from thruline.proof.rule import Example, Rule, rule_id
from thruline.rig.whole import Lack


def _look(case: Case) -> Iterator[Result]:
    return gap_findings(case, RULE, {Lack.SETTING, Lack.SETTING_VALUE})


def _rig(clock: str) -> Example:
    rows = ("channel = 3", f'settings = {{ clock = "{clock}" }}')
    return board(a_unit("delay", "bramley-delay", *rows))


RULE = Rule(
    id=rule_id(__name__),
    title="A setting or a choice that the unit does not have",
    severity=Severity.FAULT,
    why=(
        "The document sets a menu item, or a choice of one, that the unit's chart does not "
        "know. The unit is then taken to stand as it left the factory, which is rarely what "
        "was meant."
    ),
    failing=_rig("onn"),
    passing=_rig("on"),
    look_whole=_look,
)
