"""Columns that are left over, each told once: who sets it, who leaves it, and what then differs."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from thruline.rig.preset import Preset
from thruline.rig.sweep import Sweep
from thruline.sameness.codes import BEYOND, OWN, UNTOLD, Truths
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


@dataclass(frozen=True, eq=False)  # without slots: what is told is worked out when asked for
class Leftover:
    """A column that some presets leave as it was, although that is not always the same.

    `index` is the place of the column. A bank register is left over where a program change relies
    on it.
    """

    held: Held
    index: int
    cause: Cause

    @property
    def column(self) -> Column:
        """What is left over."""
        return self.held.table.layout.columns[self.index]

    @property
    def power_up(self) -> int:
        """The code before any preset was recalled."""
        return self.column.power_up

    @cached_property
    def left_in(self) -> tuple[Preset, ...]:
        """The presets in which it is left over."""
        return _presets(self.held, self.held.entering[:, self.index] == SEVERAL)

    @cached_property
    def witnesses(self) -> tuple[Witness, ...]:
        """One for each preset of `left_in`: two ways to come there that leave two values."""
        return tuple(witnesses(self.held, self.index))

    @property
    def example(self) -> Witness:
        """The witness whose presets lie nearest together: the easiest to try."""
        return min(self.witnesses, key=_apart)

    @cached_property
    def sent_by(self) -> tuple[Sets, ...]:
        """The presets that send it, and what they leave."""
        limit = OWN if self.column.kind is ColumnKind.CONTROL else BEYOND
        return tuple(_sets(self.held, self.index, codes=range(limit)))

    @cached_property
    def loaded_by(self) -> tuple[Sets, ...]:
        """The presets that send it nothing, but whose program brings it along."""
        first = OWN if self.column.kind is ColumnKind.CONTROL else BEYOND
        return tuple(_sets(self.held, self.index, codes=range(first, BEYOND)))

    @cached_property
    def moved_by(self) -> tuple[Moves, ...]:
        """The sweeps that move it."""
        return tuple(_moves(self.held, self.index))


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
    told = ((column, cause_of(held, column)) for column in np.flatnonzero(found).tolist())
    return tuple(Leftover(held, column, cause) for column, cause in told if cause is not None)


def _apart(witness: Witness) -> int:
    """How far the presets of a witness lie apart, by their numbers."""
    sources = [one.preset for one in (witness.first, witness.second) if one.preset]
    return sum(abs(one.number - witness.entered.number) for one in sources)


def _sets(held: Held, column: int, *, codes: range) -> Iterator[Sets]:
    """The presets that leave a code of their own, of these codes."""
    table = held.table
    effects = table.effects[:, column]
    fits = (effects >= codes.start) & (effects < codes.stop)
    rows = np.flatnonzero(left_by_presets(table, column) & fits)
    for row, code in zip(rows.tolist(), effects[rows].tolist(), strict=True):
        yield Sets(table.presets[row], code)


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
