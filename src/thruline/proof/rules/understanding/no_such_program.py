"""A preset wants a program that the unit does not have."""

import difflib
from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.preset import Preset
from thruline.rig.programs import Numbering, label_at, labels


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    for goal in preset.goals:
        if goal.program is None or goal.program.wire is not None:
            continue
        unit = case.rig.units[goal.unit]
        numbering = unit.chart.programs
        written = preset.address_of(goal, "program")
        if numbering is None:
            if unit.chart.receives.program is not False:
                lacks = f"programs in chart {unit.chart.id}"
                label = goal.program.label
                says = f'what program "{label}" of {unit.name} is on the wire cannot be told'
                yield RULE.untold(says, unit.address, lacks=lacks)
            continue
        span = _span(numbering)
        yield RULE.finding(
            f'{unit.name} has no program "{goal.program.label}"; its display shows {span}',
            preset.address.child(goal.unit).child("program"),
            evidence=[facts(("wanted", goal.program.label), ("the unit shows", span))],
            mends=[
                Mend(f'Recall "{label}" instead', (set_to(written, label),))
                for label in _alike(numbering, goal.program.label)
            ],
        )


def _span(numbering: Numbering) -> str:
    return f"{label_at(numbering, 0)} to {label_at(numbering, numbering.count - 1)}"


def _alike(numbering: Numbering, label: str) -> list[str]:
    return difflib.get_close_matches(label, list(labels(numbering)), n=2, cutoff=0.3)


RULE = Rule(
    id=rule_id(__name__),
    title="A program that the unit does not have",
    severity=Severity.FAULT,
    why=(
        "The label in the preset is none that the unit's display can show, so there is no number "
        "to send for it. The unit keeps the program it had."
    ),
    failing=board(DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2F" }')),
    passing=board(DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2C" }')),
    look_preset=_look,
)
