"""A switch that is sent neither its lowest nor its highest value."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.preset import Preset
from thruline.rig.values import ControlKind, Value


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    for goal in preset.goals:
        for one in goal.controls:
            value = one.value
            if one.control.kind is not ControlKind.SWITCH or not isinstance(value, Value):
                continue
            if one.control.zones:  # its chart says which values it takes, the middle among them
                continue
            if value.wire not in (one.control.low, one.control.high):
                where = preset.address.child(goal.unit).child(one.control.id)
                yield RULE.finding(
                    f"preset {preset.title} sends {value.wire} to the switch {one.control.name} of "
                    f'{case.rig.units[goal.unit].name}, which reads it as "{value.shown}"',
                    where,
                    evidence=[
                        facts(
                            ("written", value.written),
                            ("byte", str(value.wire)),
                            ("read as", value.shown),
                        )
                    ],
                    mends=[
                        Mend(f'Write "{value.shown}"', (set_to(where, value.shown),), is_safe=True)
                    ],
                )


RULE = Rule(
    id=rule_id(__name__),
    title="A switch value in the middle",
    severity=Severity.ADVICE,
    why=(
        "A switch is off up to 63 and on from 64. A value in between works on most units and is "
        'one slip away from the other state; "on" and "off" send 127 and 0.'
    ),
    failing=board(
        DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2A", trails = 65 }')
    ),
    passing=board(
        DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2A", trails = "on" }')
    ),
    look_preset=_look,
)
