"""The document names a unit that is not on the board."""

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
ends = "din5/din5"

[[preset]]
number = 1
name = "Overture"
{unit} = {{ program = "2A" }}
"""


def _look(case: Case) -> Iterator[Result]:
    return gap_findings(case, RULE, {Lack.UNIT})


RULE = Rule(
    id=rule_id(__name__),
    title="A unit that is not on the board",
    severity=Severity.FAULT,
    why=(
        "A preset, cable, sweep or audio path names a unit by an id that no unit has. Nothing is "
        "sent to it and nothing is plugged into it, most often because of a slip of the keyboard "
        "or because the unit was renamed in one place only."
    ),
    failing=Example(_RIG.format(unit="dealy")),
    passing=Example(_RIG.format(unit="delay")),
    look_whole=_look,
)
