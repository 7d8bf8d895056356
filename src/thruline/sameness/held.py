"""The sets of values that columns can hold, after any history, and what presets find on entering.

A preset that sets a column finds one value there. One that keeps it finds whatever was left: the
union of power-up, of all that any preset sets and of all that any pedal can leave. Every preset can
be recalled after any other and after itself, so that union is the same for all that keep it.
Whether it is one value is seen from its lowest and highest code; the set is listed on demand.

A column that no preset sets and that one pedal moves alike on every preset is at the pedal's place
from the pedal's first movement on, wherever one comes from: so a volume pedal is no leftover.
"""

from dataclasses import dataclass, fields
from enum import StrEnum

import numpy as np

from thruline.sameness.codes import BEYOND, NOTHING, OWN, UNTOLD, Codes, Marks, Places, Truths
from thruline.sameness.columns import ColumnKind
from thruline.sameness.effects import EffectTable


class Entering(StrEnum):
    """What can be said of a column right after a recall. Arrays hold places in this list."""

    ONE = "one"
    """One certain value."""
    PEDAL = "pedal"
    """What the pedal's place says: it is sent on recall, or was followed all along."""
    SEVERAL = "several"
    """Left over: it depends on where you came from."""
    UNTOLD = "untold"
    """A fact that a chart lacks decides it."""


class Cause(StrEnum):
    """What makes a leftover."""

    PRESETS = "presets"
    """Two presets leave different values, no pedal touched."""
    PEDAL = "pedal"
    """Only a sweep leaves a different value."""
    POWER_UP = "power-up"
    """All presets and pedals leave the same, but until one of them does, power-up decides."""


ORDER = tuple(Entering)
ONE, PEDAL, SEVERAL, CANNOT_TELL = range(len(ORDER))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Spans:
    """One entry a column: lowest and highest code that is left, in three steps.

    `set_`: by presets alone; `moved_`: by presets and pedals; without a name: power-up as well.
    Where nothing is left the lowest is above the highest. `untold`: something may be left of which
    nobody can tell the value. `touched`: some preset or sweep aims at the column; the others are
    only carried along by programs.
    """

    set_low: Codes
    set_high: Codes
    moved_low: Codes
    moved_high: Codes
    low: Codes
    high: Codes
    untold: Truths
    touched: Truths


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Held:
    """What is left in each column, and what each preset finds there.

    `entering`, presets x columns, are places in `ORDER`. `renewed` are the columns that were looked
    at anew.
    """

    table: EffectTable
    spans: Spans
    entering: Marks
    renewed: Places

    def finds(self, row: int, column: int) -> Entering:
        """What a preset finds in a column."""
        return ORDER[int(self.entering[row, column])]


@dataclass(frozen=True, slots=True, kw_only=True)
class Values:
    """All that a column can be left at: codes from the lowest, and where they come from."""

    by_presets: tuple[int, ...]
    by_pedals: tuple[int, ...]
    power_up: int
    untold: bool

    @property
    def codes(self) -> tuple[int, ...]:
        """Every code once."""
        return tuple(sorted({*self.by_presets, *self.by_pedals, self.power_up}))


def hold(table: EffectTable, before: Held | None = None) -> Held:
    """What is left and found. Columns that are as they were `before` are taken over."""
    columns = changed_columns(table, before.table if before else None)
    everything = columns.size == table.effects.shape[1]
    fresh = _spans(table, slice(None) if everything else columns)
    spans = fresh if before is None or everything else _merged(before.spans, fresh, columns)
    return Held(table=table, spans=spans, entering=_entering(table, spans), renewed=columns)


def changed_columns(table: EffectTable, before: EffectTable | None) -> Places:
    """The columns in which two tables differ; all of them when the tables cannot be compared."""
    every = np.arange(len(table.layout.columns))
    if before is None or before.effects.shape != table.effects.shape:
        return every
    if before.layout is not table.layout and before.layout.columns != table.layout.columns:
        return every
    changed = (before.effects != table.effects).any(axis=0)
    changed |= (before.asks != table.asks).any(axis=0)
    if before.strokes is not table.strokes:
        for stroke in (*before.strokes.strokes, *table.strokes.strokes):
            changed[stroke.column] = True
    return np.flatnonzero(changed)


def left_by_presets(table: EffectTable, columns: Places | slice | int) -> Truths:
    """Where a preset leaves a known value of its own: neither kept, nor replaced by a pedal."""
    return (table.effects[:, columns] >= 0) & ~table.cover.decides[:, columns]


def _spans(table: EffectTable, columns: Places | slice) -> Spans:
    effects = table.effects[:, columns]
    left = left_by_presets(table, columns)
    cover, power_up = table.cover, table.layout.power_up[columns]
    low = np.where(left, effects, np.int32(BEYOND)).min(axis=0, initial=BEYOND)
    high = np.where(left, effects, np.int32(NOTHING)).max(axis=0, initial=NOTHING)
    moved_low = np.minimum(low, cover.low[columns])
    moved_high = np.maximum(high, cover.high[columns])
    doubted = (effects == UNTOLD) & ~cover.decides[:, columns]
    return Spans(
        set_low=low,
        set_high=high,
        moved_low=moved_low,
        moved_high=moved_high,
        low=np.minimum(moved_low, power_up),
        high=np.maximum(moved_high, power_up),
        untold=doubted.any(axis=0) | cover.may_move[columns],
        touched=_touched(table, columns, effects),
    )


def _touched(table: EffectTable, columns: Places | slice, effects: Codes) -> Truths:
    """Columns that are aimed at: set by a message of their own, or moved."""
    kinds = np.array([one.kind is ColumnKind.CONTROL for one in table.layout.columns], np.bool_)
    limit = np.where(kinds[columns], OWN, BEYOND)
    aimed = (effects >= 0) & (effects < limit)
    return np.logical_or(aimed.any(axis=0), table.cover.high[columns] >= 0)


def _merged(before: Spans, fresh: Spans, columns: Places) -> Spans:
    """The spans before, with these columns replaced."""
    merged = {}
    for field in fields(Spans):
        whole = getattr(before, field.name).copy()
        whole[columns] = getattr(fresh, field.name)
        merged[field.name] = whole
    return Spans(**merged)


def _entering(table: EffectTable, spans: Spans) -> Marks:
    """What every preset finds in every column."""
    cover = table.cover
    kept = np.where(spans.low < spans.high, SEVERAL, np.where(spans.untold, CANNOT_TELL, ONE))
    found = np.where(table.asks, kept.astype(np.int8), np.int8(ONE))
    found[cover.follows & ~table.asks] = PEDAL
    found[table.asks & in_step(table, spans)] = PEDAL
    untold = (table.effects == UNTOLD) & ~(cover.decides & ~cover.untold)
    found[untold & (table.asks | ~table.layout.is_bank)] = CANNOT_TELL
    return found


def in_step(table: EffectTable, spans: Spans) -> Truths:
    """Columns that go with a pedal, whatever is recalled: nothing but that pedal sets them."""
    untouched = (spans.set_low > spans.set_high) & ~spans.untold
    return np.logical_and(table.cover.in_step, untouched)


def cause_of(held: Held, column: int) -> Cause | None:
    """What makes the column a leftover for presets that keep it; None when it is none."""
    spans = held.spans
    if in_step(held.table, spans)[column]:
        return None
    if spans.set_low[column] < spans.set_high[column]:
        return Cause.PRESETS
    if spans.moved_low[column] < spans.moved_high[column]:
        return Cause.PEDAL
    return Cause.POWER_UP if spans.low[column] < spans.high[column] else None


def values_of(held: Held, column: int) -> Values:
    """All that a column can be left at."""
    table = held.table
    codes = table.effects[left_by_presets(table, column), column]
    moved = [one.values for one in table.strokes.strokes if one.column == column]
    return Values(
        by_presets=tuple(np.unique(codes).tolist()),
        by_pedals=tuple(np.unique(np.concatenate(moved)).tolist()) if moved else (),
        power_up=int(table.layout.power_up[column]),
        untold=bool(held.spans.untold[column]),
    )
