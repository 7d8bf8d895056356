"""One half of a 14-bit pair without the other."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_memories import BANK, stored
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.understood import Met, met, program_again, sent_rows
from thruline.rig.preset import Preset
from thruline.rig.readings import Part


def _look(case: Case, preset: Preset) -> Iterator[Result]:
    halves: dict[tuple[str, str], list[tuple[Part, Met]]] = {}
    for one in met(case, preset):
        if one.item.data[0] & 0xF0 == 0xB0:
            for reading in one.unit.chart.readings.plain.get(one.item.data[1], ()):
                if reading.part is not Part.WHOLE:
                    key = (one.unit.id, reading.control.id)
                    halves.setdefault(key, []).append((reading.part, one))
    for (unit_id, control_id), parts in halves.items():
        order = [part for part, _ in parts]
        if order != [Part.COARSE, Part.FINE] * (len(order) // 2):
            unit = case.rig.units[unit_id]
            name = unit.chart.controls[control_id].name
            yield RULE.finding(
                f"preset {preset.title} sends {name} of {unit.name} {_trouble(order)}",
                preset.address.child("messages"),
                unit.address.child(control_id),
                evidence=[sent_rows([one for _, one in parts])],
                mends=program_again(preset),
            )


def _trouble(order: list[Part]) -> str:
    if Part.FINE not in order:
        return "the coarse half only: the fine half falls to 0"
    if Part.COARSE not in order:
        return "the fine half only: the coarse half stays as it was"
    if order[0] is Part.FINE:
        return "fine half first: the coarse half sets it back to 0"
    return "with one half by itself: a coarse half sets the fine one back to 0"


RULE = Rule(
    id=rule_id(__name__),
    title="Half of a 14-bit pair",
    severity=Severity.FAULT,
    why=(
        "A fine control takes two control changes, the coarse half first. The coarse half sets "
        "the fine one to 0, so the wrong order, or one half alone, gives another value than "
        "meant."
    ),
    failing=stored(*BANK, "3: program 6", "wait 60 ms", "3: control 29 = 64"),
    passing=stored(*BANK, "3: program 6", "wait 60 ms", "3: control 29 = 64", "3: control 61 = 5"),
    look_memory=_look,
)
