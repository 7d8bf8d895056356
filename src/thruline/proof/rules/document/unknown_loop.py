"""The audio path names a relay loop that the unit does not have."""

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
id = "drive"
chart = "russet-drive"

[audio]
path = ["guitar", "feet.{loop}[drive]", "amp"]
"""


def _look(case: Case) -> Iterator[Result]:
    return gap_findings(case, RULE, {Lack.LOOP})


RULE = Rule(
    id=rule_id(__name__),
    title="A relay loop that the unit does not have",
    severity=Severity.FAULT,
    why=(
        "The audio path runs through a relay loop that is not in the unit's chart, so no "
        "preset can put what hangs in it in or out."
    ),
    failing=Example(_RIG.format(loop="loop-9")),
    passing=Example(_RIG.format(loop="loop-1")),
    look_whole=_look,
)
