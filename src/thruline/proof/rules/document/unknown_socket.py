"""A cable names a socket that the unit does not have."""

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

[[cable]]
from = "feet.midi-out-1"
to = "delay.{socket}"
ends = "din5/din5"
"""


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
    failing=Example(_RIG.format(socket="midi-inn")),
    passing=Example(_RIG.format(socket="midi-in")),
    look_whole=_look,
)
