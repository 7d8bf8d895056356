"""Columns that are left over, each told once: who sets it, who leaves it, and what then differs."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from thruline.rig.preset import Preset
from thruline.rig.sweep import Sweep
from thruline.sameness.codes import OWN, UNTOLD, Truths
from thruline.sameness.columns import Column, ColumnKind
from thruline.sameness.held import (
    CANNOT_TELL,
    SEVERAL,
    Cause,
    Held,
    cause_of,
    left_by_presets,
)
from thruline.sameness.witness import Witness, witnesses


@dataclass(frozen=True, slots=True)
class Sets:
    """A preset that sets a column, and the code that it leaves there."""

    preset: Preset
    code: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Moves:
    """A sweep that moves a column, on which presets, and the lowest and highest code it leaves."""

    sweep: Sweep
    presets: tuple[Preset, ...]
    low: int
    high: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Leftover:
    """A column that some presets leave as it was, although that is not always the same.

    `witnesses` has one entry for each preset in which it is left over. `sent_by` are the presets
    that send it, `loaded_by` those whose program brings it along, `moved_by` the sweeps.
    `with_program` are presets in which the unit's program, which would set it, is left over too. A
    bank register is left over where a program change relies on it. `power_up` is a code.
    """

    column: Column
    cause: Cause
    witnesses: tuple[Witness, ...]
    sent_by: tuple[Sets, ...]
    loaded_by: tuple[Sets, ...]
    moved_by: tuple[Moves, ...]
    with_program: tuple[Preset, ...]
    power_up: int

    @property
    def left_in(self) -> tuple[Preset, ...]:
        """The presets in which it is left over."""
        return tuple(one.entered for one in self.witnesses)

    @property
    def example(self) -> Witness:
        """The witness whose presets lie nearest together: the easiest to try."""
        return min(self.witnesses, key=_apart)


def _apart(witness: Witness) -> int:
    """How far the presets of a witness lie apart, by their numbers."""
    sources = [one.preset for one in (witness.first, witness.second) if one.preset]
    return sum(abs(one.number - witness.entered.number) for one in sources)


@dataclass(frozen=True, slots=True, kw_only=True)
class Unclear:
    """A column of which nobody can tell what some presets find there.

    `unsaid` are presets that may or may not set it: the chart does not say what becomes of their
    messages, or whether programs store it. `by_sweep`: the same of a sweep.
    """

    column: Column
    presets: tuple[Preset, ...]
    unsaid: tuple[Preset, ...]
    by_sweep: bool


def leftovers(held: Held) -> tuple[Leftover, ...]:
    """Every column that is left over in some preset, in the order of the columns.

    Columns that no message and no sweep aims at are left out: they go with their program.
    """
    found = (held.entering == SEVERAL).any(axis=0) & held.spans.touched
    return tuple(leftover(held, column) for column in np.flatnonzero(found).tolist())


def leftover(held: Held, column: int) -> Leftover:
    """One column told. Raises ValueError when it is left over nowhere."""
    cause = cause_of(held, column)
    told = tuple(witnesses(held, column))
    if cause is None or not told:
        raise ValueError(f"{held.table.layout.columns[column].part} is not left over")
    sets = tuple(_sets(held, column))
    by_program = held.table.layout.columns[column].kind is ColumnKind.CONTROL
    return Leftover(
        column=held.table.layout.columns[column],
        cause=cause,
        witnesses=told,
        sent_by=tuple(one for one in sets if not (by_program and one.code >= OWN)),
        loaded_by=tuple(one for one in sets if by_program and one.code >= OWN),
        moved_by=tuple(_moves(held, column)),
        with_program=_with_program(held, column),
        power_up=int(held.table.layout.power_up[column]),
    )


def _sets(held: Held, column: int) -> Iterator[Sets]:
    """The presets that leave a code of their own."""
    table = held.table
    for row in np.flatnonzero(left_by_presets(table, column)).tolist():
        yield Sets(table.presets[row], int(table.effects[row, column]))


def _moves(held: Held, column: int) -> Iterator[Moves]:
    presets = held.table.presets
    for stroke in held.table.strokes.strokes:
        if stroke.column == column and stroke.values.size:
            yield Moves(
                sweep=stroke.sweep,
                presets=tuple(presets[row] for row in stroke.rows.tolist()),
                low=int(stroke.values[0]),
                high=int(stroke.values[-1]),
            )


def _with_program(held: Held, column: int) -> tuple[Preset, ...]:
    """Presets in which both the column and the program that would set it are left over."""
    layout = held.table.layout
    about = layout.columns[column]
    if about.kind is not ColumnKind.CONTROL or not about.stored:
        return ()
    program = layout.units[layout.unit_of[column]].program
    if program is None:
        return ()
    both = (held.entering[:, (column, program)] == SEVERAL).all(axis=1)
    return tuple(held.table.presets[row] for row in np.flatnonzero(both).tolist())


def unclear(held: Held) -> tuple[Unclear, ...]:
    """Every column that is aimed at and of which some preset cannot tell what it finds."""
    table = held.table
    found = (held.entering == CANNOT_TELL) & held.spans.touched
    told = []
    for column in np.flatnonzero(found.any(axis=0)).tolist():
        unsaid = (table.effects[:, column] == UNTOLD) & ~table.cover.untold[:, column]
        told.append(
            Unclear(
                column=table.layout.columns[column],
                presets=_presets(held, found[:, column]),
                unsaid=_presets(held, unsaid),
                by_sweep=bool(table.cover.may_move[column]),
            )
        )
    return tuple(told)


def _presets(held: Held, chosen: Truths) -> tuple[Preset, ...]:
    return tuple(held.table.presets[row] for row in np.flatnonzero(chosen).tolist())
