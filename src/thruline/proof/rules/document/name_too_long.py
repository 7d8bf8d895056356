"""A preset's name that the controller's display cannot show."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Example, Rule, rule_id
from thruline.rig.preset import Preset

_RIG = """
[[unit]]
id = "feet"
chart = "braeburn-six"

[[preset]]
number = 1
name = "{name}"
"""


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    controller = case.rig.controller
    abilities = controller.chart.abilities if controller else None
    if controller is None or abilities is None or abilities.name_length is None:
        return
    room = abilities.name_length
    if len(preset.name) > room:
        cut = preset.name[:room].rstrip()
        yield RULE.finding(
            f"the name of preset {preset.title} has {len(preset.name)} characters; "
            f"{controller.name} "
            f"shows {room}",
            preset.address.child("name"),
            evidence=[facts(("written", preset.name), ("shown", cut))],
            mends=[Mend(f'Shorten it to "{cut}"', (set_to(preset.address.child("name"), cut),))],
        )


RULE = Rule(
    id=rule_id(__name__),
    title="A name too long for the display",
    severity=Severity.RISK,
    why=(
        "The controller cuts the name off, or does not take it. In the dark the player reads what "
        "is left of it, and two cut names may look the same."
    ),
    failing=Example(_RIG.format(name="The long farewell at the orchard gate")),
    passing=Example(_RIG.format(name="Farewell")),
    look_preset=_look,
)
