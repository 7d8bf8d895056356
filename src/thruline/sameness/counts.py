"""How many changes of preset end elsewhere than most, cell by cell, without visiting the cells.

A cell is one short history: power-up, a preset p, a pedal at one of its places or not moved, then
another preset q. What q finds in a column that it keeps does not depend on q, so a column's cells
are counted once for each p, by value, and that serves every q that keeps the column. Time and
memory grow with presets x columns, not with pairs of presets.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from thruline.rig.sweep import POSITIONS
from thruline.sameness.codes import KEEPS, UNTOLD, Codes, Places, Truths
from thruline.sameness.effects import EffectTable
from thruline.sameness.held import CANNOT_TELL, ORDER, SEVERAL, Entering, Held
from thruline.sameness.strokes import Stroke

Numbers = NDArray[np.int64]

_CODE_BITS, _WEIGHT_BITS = 25, 22
"""Room in a key: every code is below BEYOND (2^25), and 16,384 presets x 128 places are 2^21."""
_CODE_MASK, _WEIGHT_MASK = (1 << _CODE_BITS) - 1, (1 << _WEIGHT_BITS) - 1


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Counts:
    """What is counted for each preset that one comes from: presets x columns.

    `off`: how many of its cells leave another value than `usual`, the one that most cells of the
    column leave (of two, the lower code). `hidden`: how many leave a value that cannot be told.
    `asked` is where a preset keeps a column that is aimed at. Where nothing differs, nothing is
    counted.
    """

    held: Held
    usual: Codes
    off: Codes
    hidden: Codes
    asked: Truths


@dataclass(frozen=True, slots=True, kw_only=True)
class Tally:
    """All cells of a table.

    `changes` are ordered pairs of presets; `changes_off` those in which some column ends elsewhere
    than usual, at some place of some pedal.
    """

    presets: int
    columns: int
    changes: int
    changes_off: int
    cells: int
    cells_off: int
    cells_hidden: int


def count(held: Held, before: Counts | None = None) -> Counts:
    """The counts of a table. Columns that `held` took over are taken over from `before`."""
    table = held.table
    renewed = held.renewed
    asked = table.asks & held.spans.touched
    if before is None or renewed.size == len(table.layout.columns):
        usual = held.spans.low.copy()
        off, hidden = np.zeros_like(table.effects), np.zeros_like(table.effects)
    else:
        usual, off, hidden = before.usual.copy(), before.off.copy(), before.hidden.copy()
        usual[renewed] = held.spans.low[renewed]
        off[:, renewed] = hidden[:, renewed] = 0
    differs = asked & np.isin(held.entering, (SEVERAL, CANNOT_TELL))
    columns = renewed[differs[:, renewed].any(axis=0)]
    if columns.size:
        usual[columns], off[:, columns], hidden[:, columns] = _count(table, columns)
    return Counts(held=held, usual=usual, off=off, hidden=hidden, asked=asked)


def _count(table: EffectTable, columns: Places) -> tuple[Codes, Codes, Codes]:
    """`usual`, `off` and `hidden` of some columns."""
    effects, still = table.effects[:, columns], table.cover.still[:, columns]
    power_up = table.layout.power_up[columns]
    left = np.where(effects == KEEPS, power_up, effects)
    strokes = list(_strokes_in(table, columns))
    usual = _usual(left, still, strokes=strokes, unless=power_up)
    off = np.where((left >= 0) & (left != usual), still, 0)
    hidden = np.where(left == UNTOLD, still, 0)
    for place, stroke in strokes:
        other = int(stroke.counts[stroke.values != usual[place]].sum())
        off[stroke.rows, place] += other
        if stroke.untold:
            hidden[stroke.rows, place] += POSITIONS
    return usual, off, hidden


def _strokes_in(table: EffectTable, columns: Places) -> Iterator[tuple[int, Stroke]]:
    """The strokes of some columns, each with the place of its column among them."""
    places = {column: place for place, column in enumerate(columns.tolist())}
    for stroke in table.strokes.strokes:
        if stroke.column in places:
            yield places[stroke.column], stroke


def _usual(left: Codes, still: Codes, *, strokes: list[tuple[int, Stroke]], unless: Codes) -> Codes:
    """The code that most cells of each column leave; `unless` where none is known.

    Keys of column, code and weight are sorted, so that equal codes of a column stand together.
    """
    ordered = np.concatenate(
        [
            _keys(left, still),
            *(
                (((place << _CODE_BITS) + one.values.astype(np.int64)) << _WEIGHT_BITS)
                + one.counts * one.rows.size
                for place, one in strokes
            ),
        ]
    )
    ordered.sort(kind="stable")  # that merges what is sorted already
    usual = unless.copy()
    if ordered.size == 0:
        return usual
    group = ordered >> _WEIGHT_BITS
    first = _firsts(group)
    weight = np.add.reduceat(ordered & _WEIGHT_MASK, first)
    place, code = group[first] >> _CODE_BITS, group[first] & _CODE_MASK
    first = _firsts(place)
    best = np.maximum.reduceat((weight << _CODE_BITS) + (_CODE_MASK - code), first)
    known = best > _CODE_MASK
    usual[place[first][known]] = _CODE_MASK - (best[known] & _CODE_MASK)
    return usual


def _keys(left: Codes, still: Codes) -> Numbers:
    """The sorted keys of what presets leave, column by column; what is unknown weighs nothing."""
    known = left >= 0
    keys = (np.where(known, left, 0).astype(np.int64) << _WEIGHT_BITS) + np.where(known, still, 0)
    by_column = np.sort(keys.T, axis=1)
    by_column += np.arange(left.shape[1])[:, None] << (_CODE_BITS + _WEIGHT_BITS)
    return by_column.reshape(-1)


def _firsts(groups: Numbers) -> Places:
    """Where each run of equal numbers begins."""
    return np.flatnonzero(np.concatenate(([True], groups[1:] != groups[:-1])))


def tally(counts: Counts) -> Tally:
    """The sums over all pairs of presets and all places of the pedals."""
    table = counts.held.table
    presets, columns = table.effects.shape
    return Tally(
        presets=presets,
        columns=columns,
        changes=presets * (presets - 1),
        changes_off=int(np.count_nonzero(changes_off(counts))),
        cells=max(0, presets - 1) * _ways(table),
        cells_off=int(cells_off(counts).sum()),
        cells_hidden=int(_over_pairs(counts.asked, counts.hidden).sum()),
    )


def _ways(table: EffectTable) -> int:
    """Cells for one preset that is entered: each other preset at each place of a pedal."""
    moved = sum(
        one.rows.size * (POSITIONS if one.untold else int(one.counts.sum()))
        for one in table.strokes.strokes
    )
    return int(table.cover.still.sum(dtype=np.int64)) + moved


def cells_off(counts: Counts) -> Numbers:
    """Presets that are entered x columns: cells that find another value than usual."""
    return _over_pairs(counts.asked, counts.off)


def pairs_off(counts: Counts) -> Numbers:
    """Presets that are entered x columns: other presets after which some cell differs."""
    return _over_pairs(counts.asked, counts.off > 0)


def _over_pairs(asked: Truths, amounts: Codes | Truths) -> Numbers:
    """For each preset that asks: the sum of amounts over all presets but itself."""
    whole = amounts.sum(axis=0, dtype=np.int64)
    return np.where(asked, whole - amounts, 0)


def changes_off(counts: Counts) -> Truths:
    """Presets that are entered x presets that one comes from: whether any column ends elsewhere.

    Columns are packed 64 to a word, so that memory stays at one word a pair.
    """
    asked, off = _words(counts.asked), _words(counts.off > 0)
    found = np.zeros((asked.shape[0], off.shape[0]), np.bool_)
    for word in range(asked.shape[1]):
        found |= (asked[:, None, word] & off[None, :, word]) != 0
    np.fill_diagonal(found, val=False)
    return found


def _words(truths: Truths) -> NDArray[np.uint64]:
    """Each row's truths as 64-bit words, filled up with zeros."""
    packed = np.packbits(truths, axis=1)
    room = -packed.shape[1] % 8
    return np.pad(packed, ((0, 0), (0, room))).view(np.uint64)


def share_of_entries(held: Held) -> dict[Entering, int]:
    """How many presets x columns (those that are aimed at) find what."""
    found = held.entering[:, held.spans.touched]
    amounts = np.bincount(found.reshape(-1), minlength=len(ORDER))
    return dict(zip(ORDER, amounts.tolist(), strict=True))
