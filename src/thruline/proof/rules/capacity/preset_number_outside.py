"""A preset number that the controller does not have."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_preset, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    controller = case.rig.controller
    abilities = controller.chart.abilities if controller else None
    if controller is None or abilities is None:
        return
    first, last = abilities.first_preset, abilities.first_preset + abilities.presets - 1
    taken = {preset.number for preset in case.rig.presets}
    free = (number for number in range(first, last + 1) if number not in taken)
    for preset in case.rig.presets:
        if not first <= preset.number <= last:
            number = next(free, None)
            edit = set_to(preset.address.child("number"), number or 0)
            yield RULE.finding(
                f"preset {preset.title} does not exist on {controller.name}, which has {first} to "
                f"{last}",
                preset.address.child("number"),
                evidence=[facts((controller.name, f"{abilities.presets} presets from {first}"))],
                mends=[Mend(f"Give it the number {number}, which is free", (edit,))]
                if number is not None
                else [],
            )


RULE = Rule(
    id=rule_id(__name__),
    title="A preset number that the controller does not have",
    severity=Severity.FAULT,
    why=(
        "The controller counts its presets from a first to a last number. Beyond them there is no "
        "place to program anything into."
    ),
    failing=board(a_preset(300, "Overture")),
    passing=board(a_preset(30, "Overture")),
    look_whole=_look,
)
