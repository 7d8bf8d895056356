"""What a preset finds that depends on where one comes from."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from thruline.proof.case import Case
from thruline.rig.preset import Preset
from thruline.rig.unit import Unit
from thruline.sameness.codes import UNTOLD
from thruline.sameness.held import SEVERAL, Held
from thruline.sameness.leftovers import Leftover, leftovers
from thruline.sameness.witness import History
from thruline.sameness.words import in_words, name_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Arriving:
    """A value of a unit that a preset leaves as it finds it, and what it is then, in words."""

    unit: str
    name: str
    says: str


def arriving(case: Case, preset: Preset, before: Preset | None) -> tuple[Arriving, ...]:
    """Every value that is left over in a preset: from `before`, or else in general."""
    if before is None:
        return tuple(_in_general(case, preset))
    return tuple(_coming_from(case, preset, before))


def _in_general(case: Case, preset: Preset) -> Iterator[Arriving]:
    for one in leftovers(case.held):
        if preset in one.left_in:
            unit = case.rig.units[one.column.unit]
            yield Arriving(
                unit=unit.name, name=name_of(one.column), says=_two_ways(one, preset, unit)
            )


def _two_ways(one: Leftover, preset: Preset, unit: Unit) -> str:
    """What it is coming from two different places."""
    told = next(each for each in one.witnesses if each.entered == preset)
    return ", ".join(
        f"{in_words(each.code, one.column, unit)} coming from {_place(each)}"
        for each in (told.first, told.second)
    )


def _place(history: History) -> str:
    if history.preset is None:
        return "power-up"
    if history.sweep is None:
        return history.preset.title
    return f'{history.preset.title} with the pedal of "{history.sweep.name}" at {history.place}'


def _coming_from(case: Case, preset: Preset, before: Preset) -> Iterator[Arriving]:
    held = case.held
    here, there = (case.rig.presets.index(one) for one in (preset, before))
    found = (held.entering[here] == SEVERAL) & held.spans.touched
    for column in np.flatnonzero(found).tolist():
        about = held.table.layout.columns[column]
        unit = case.rig.units[about.unit]
        says = _left_by(held, there, column, unit=unit)
        yield Arriving(unit=unit.name, name=name_of(about), says=says)


def _left_by(held: Held, there: int, column: int, *, unit: Unit) -> str:
    """What a preset leaves in a column."""
    table = held.table
    code = int(table.effects[there, column])
    title = table.presets[there].title
    words = in_words(code, table.layout.columns[column], unit)
    pedals = [
        stroke.sweep.name
        for stroke in table.strokes.strokes
        if stroke.column == column and there in stroke.rows
    ]
    if table.cover.decides[there, column]:
        return f'where the pedal of "{pedals[0]}" was on {title}'
    if code == UNTOLD:
        return f"what {title} leaves cannot be told"
    left = f"{words}, left by {title}" if code >= 0 else f"as it was before {title}"
    moved = f', or where the pedal of "{pedals[0]}" was' if pedals else ""
    return left + moved
