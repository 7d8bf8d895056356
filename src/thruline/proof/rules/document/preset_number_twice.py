"""Two presets of one number."""

from collections.abc import Iterator, Mapping

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_preset, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    first = {preset.number: preset for preset in reversed(case.rig.presets)}
    free = _free(case, first)
    for preset in case.rig.presets:
        if preset.occurrence > 1:
            yield RULE.finding(
                f'presets "{first[preset.number].name}" and "{preset.name}" both have the number '
                f"{preset.number}",
                preset.address,
                evidence=[
                    facts(
                        ("first", first[preset.number].title),
                        ("again", preset.title),
                    )
                ],
                mends=[
                    Mend(
                        f'Give "{preset.name}" the number {free}, which is free',
                        (set_to(preset.address.child("number"), free),),
                    )
                ],
            )


def _free(case: Case, taken: Mapping[int, object]) -> int:
    """The first number that nobody has: on the controller if it has one, else after the last."""
    controller = case.rig.controller
    able = controller.chart.abilities if controller else None
    numbers = range(able.first_preset, able.first_preset + able.presets) if able else range(0)
    return next((one for one in numbers if one not in taken), max(taken, default=0) + 1)


RULE = Rule(
    id=rule_id(__name__),
    title="Two presets of one number",
    severity=Severity.FAULT,
    why=(
        "A number is a place in the controller's memory. Whichever of the two is typed in last "
        "overwrites the other, and songs and sweeps cannot say which of them they mean."
    ),
    failing=board(a_preset(1, "Overture"), a_preset(1, "Balcony")),
    passing=board(a_preset(1, "Overture"), a_preset(2, "Balcony")),
    look_whole=_look,
)
