"""A unit is given a setting or a choice that it does not have."""

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
settings = {{ clock = "{value}" }}
"""


def _look(case: Case) -> Iterator[Result]:
    return gap_findings(case, RULE, {Lack.SETTING, Lack.SETTING_VALUE})


RULE = Rule(
    id=rule_id(__name__),
    title="A setting or a choice that the unit does not have",
    severity=Severity.FAULT,
    why=(
        "The document sets a menu item, or a choice of one, that the unit's chart does not "
        "know. The unit is then taken to stand as it left the factory, which is rarely what "
        "was meant."
    ),
    failing=Example(_RIG.format(value="onn")),
    passing=Example(_RIG.format(value="on")),
    look_whole=_look,
)
