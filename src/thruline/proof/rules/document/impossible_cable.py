"""A cable has a plug or a wiring that cannot be."""

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
to = "delay.midi-in"
ends = "din5/{plug}"
"""


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
    failing=Example(_RIG.format(plug="din6")),
    passing=Example(_RIG.format(plug="din5")),
    look_whole=_look,
)
