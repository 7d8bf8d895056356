"""A value between the labelled zones of a control."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_cable, a_preset, a_unit, board
from thruline.proof.example_charts import a_listener
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


_SHAPE = (
    'id = "shape"',
    'name = "Shape"',
    'kind = "steps"',
    'zones = [{ label = "round", low = 0, high = 40 }, { label = "square", low = 80, high = 127 }]',
)


def _rig(value: int) -> Example:
    about = "An invented unit with gaps between its choices."
    return board(
        a_unit("chorus", "chorus", "channel = 2"),
        a_cable("feet.midi-out-1", "chorus.midi-in"),
        a_preset(1, "Overture", f"chorus = {{ shape = {value} }}"),
        charts=(a_listener("chorus", *_SHAPE, about=about),),
    )


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
