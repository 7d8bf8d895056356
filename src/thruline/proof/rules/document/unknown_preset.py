"""A song or a sweep calls a preset that does not exist."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.finding import Result, Severity
from thruline.proof.gaps import gap_findings
from thruline.proof.rule import Example, Rule, rule_id
from thruline.rig.whole import Lack

_RIG = """
[[unit]]
id = "feet"
chart = "braeburn-six"

[[preset]]
number = 1
name = "Overture"

[[song]]
name = "Act one"
presets = [{number}]
"""


def _look(case: Case) -> Iterator[Result]:
    return gap_findings(case, RULE, {Lack.PRESET})


RULE = Rule(
    id=rule_id(__name__),
    title="A preset that does not exist",
    severity=Severity.FAULT,
    why=(
        "A song of the setlist or a sweep calls a preset number that the rig does not have. "
        "On stage the press goes nowhere, or to whatever the controller happens to hold "
        "there."
    ),
    failing=Example(_RIG.format(number=2)),
    passing=Example(_RIG.format(number=1)),
    look_whole=_look,
)
