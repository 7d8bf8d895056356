"""Presets, and no unit that could recall them."""

from collections.abc import Iterator

from thruline.base.address import at
from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Example, Rule, rule_id

_RIG = """
format = 1

[rig]
name = "Example"
controller = "{controller}"

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
"""


def _look(case: Case) -> Iterator[Result]:
    controller = case.rig.controller
    if controller is None or controller.chart.abilities is not None:
        return
    where = at("rig").child("controller")
    able = [unit for unit in case.rig.units.values() if unit.chart.abilities is not None]
    yield RULE.finding(
        f"{controller.name} is named as the controller, and its chart has no part about recalling "
        "presets",
        where,
        evidence=[facts(("controller", controller.id), ("kind", controller.chart.kind))],
        mends=[
            Mend(f"Make {unit.name} the controller", (set_to(where, unit.id),)) for unit in able
        ],
    )


RULE = Rule(
    id=rule_id(__name__),
    title="A controller that cannot recall presets",
    severity=Severity.FAULT,
    why=(
        "Everything that a preset does is sent by the controller. The unit named as such cannot "
        "hold presets, as far as its chart says, so nothing on this board would ever be sent."
    ),
    failing=Example(_RIG.format(controller="delay")),
    passing=Example(_RIG.format(controller="feet")),
    look_board=_look,
)
