"""A preset or a sweep names a control that the unit's chart does not have."""

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

[[unit]]
id = "delay"
chart = "bramley-delay"
channel = 3

[[preset]]
number = 1
name = "Overture"
delay = {{ program = "2A", {control} = 64 }}
"""


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
    failing=Example(_RIG.format(control="mixx")),
    passing=Example(_RIG.format(control="mix")),
    look_whole=_look,
)
