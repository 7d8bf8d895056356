"""A value between the labelled zones of a control."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Example, Rule, rule_id
from thruline.proof.value_mends import nearest_zone
from thruline.rig.preset import Preset
from thruline.rig.values import Value, zone_of


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    for goal in preset.goals:
        for one in goal.controls:
            control, value = one.control, one.value
            dead = (
                isinstance(value, Value) and control.zones and zone_of(control, value.wire) is None
            )
            if not dead or not isinstance(value, Value):
                continue
            where = preset.address.child(goal.unit).child(control.id)
            label = nearest_zone(control, value.wire).label
            yield RULE.finding(
                f"preset {preset.title} sets {control.name} of {case.rig.units[goal.unit].name} to "
                f"{value.wire}, which lies between two of its choices",
                where,
                evidence=[
                    facts(*((zone.label, f"{zone.low} to {zone.high}") for zone in control.zones))
                ],
                mends=[Mend(f'Write "{label}"', (set_to(where, label),))],
            )


_CHART = """
format = 1

[chart]
id = "chorus"
maker = "Example"
model = "Chorus"
kind = "modulation"
about = "An invented unit with gaps between its choices."

[[socket]]
id = "midi-in"
kind = "midi-in"
connector = "din5"
isolated = true

[channel]
factory = 1

[[control]]
id = "shape"
name = "Shape"
number = 20
kind = "steps"
stored = false
zones = [{ label = "round", low = 0, high = 40 }, { label = "square", low = 80, high = 127 }]

[settle]
ms = 0
controls = "obeyed"

[receive]
control = true
"""


def _rig(value: int) -> Example:
    rows = (
        '[[unit]]\nid = "chorus"\nchart = "chorus"\nchannel = 2\n',
        '[[cable]]\nfrom = "feet.midi-out-1"\nto = "chorus.midi-in"\nends = "din5/din5"\n',
        f'[[preset]]\nnumber = 1\nname = "Overture"\nchorus = {{ shape = {value} }}\n',
    )
    return Example(board(*rows).rig, charts=(_CHART,))


RULE = Rule(
    id=rule_id(__name__),
    title="A value between two choices",
    severity=Severity.FAULT,
    why=(
        "The unit divides the values into zones, one for each choice, and does nothing for values "
        "in between. Written as its label, the value always lands in the middle of its zone."
    ),
    failing=_rig(60),
    passing=_rig(100),
    look_preset=_look,
)
