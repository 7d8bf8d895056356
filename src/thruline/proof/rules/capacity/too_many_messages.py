"""A preset with more messages than the controller can hold in one."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, DELAY_TO_REVERB, REVERB, TO_DELAY, a_preset, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import counted
from thruline.rig.preset import Preset


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    controller = case.rig.controller
    abilities = controller.chart.abilities if controller else None
    if controller is None or abilities is None:
        return
    items = case.run(preset).sending.items
    if abilities.messages is not None and len(items) > abilities.messages:
        by_unit = dict.fromkeys((item.unit or "other" for item in items), 0)
        for item in items:
            by_unit[item.unit or "other"] += 1
        yield RULE.finding(
            f"preset {preset.title} needs {len(items)} messages; {controller.name} holds "
            f"{abilities.messages} in one preset",
            preset.address,
            evidence=[
                facts(*((unit, counted(count, "message")) for unit, count in by_unit.items()))
            ],
        )


RULE = Rule(
    id=rule_id(__name__),
    title="Too many messages in a preset",
    severity=Severity.FAULT,
    why=(
        "The controller has room for so many messages in each preset; what does not fit is not "
        "sent. Values that a unit's own program already holds need not be sent again."
    ),
    failing=board(
        DELAY,
        REVERB,
        TO_DELAY,
        DELAY_TO_REVERB,
        a_preset(
            1,
            "Overture",
            'delay = { program = "2A", mix = 64, repeats = 30, level = 90 }',
            "reverb = { program = 7, decay = 90, mix = 40, tone = 64, level = 100 }",
        ),
        controller="quarrenden-three",
    ),
    passing=board(
        DELAY,
        TO_DELAY,
        a_preset(1, "Overture", 'delay = { program = "2A", mix = 64 }'),
        controller="quarrenden-three",
    ),
    look_preset=_look,
)
