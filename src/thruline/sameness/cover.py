"""What all strokes together do to presets and columns."""

from collections.abc import Callable, Hashable, Iterable, Iterator
from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from thruline.rig.sweep import POSITIONS
from thruline.sameness.codes import BEYOND, NOTHING, Codes, Truths
from thruline.sameness.strokes import Stroke

PLACES = POSITIONS + 1
"""Where a pedal can be found: at each of its positions, or not moved since the recall."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Cover:
    """Presets x columns, but for the last four, which have one entry a column.

    `follows`: on entering, the pedal's place is sent. `decides`: and obeyed at every place, so that
    nothing of the preset's own value or of any earlier one is left. `untold`: and nobody can tell
    whether it is obeyed. `still` counts the cells in which no pedal was moved: all places where
    no pedal matters, one where one does, none where its place is sent anyway. `low` and `high` are
    the lowest and highest code that any sweep leaves; `may_move` is true where nobody can tell.
    `in_step`: every preset has the column moved by the same pedal through the same stairs.
    """

    follows: Truths
    decides: Truths
    untold: Truths
    still: Codes
    low: Codes
    high: Codes
    may_move: Truths
    in_step: Truths


def cover_of(strokes: tuple[Stroke, ...], presets: int, columns: int) -> Cover:
    """The cover of strokes on a table of so many presets and columns."""
    shape = (presets, columns)
    follows, decides, untold = (np.zeros(shape, np.bool_) for _ in range(3))
    still = np.full(shape, PLACES, np.int32)
    low, high = np.full(columns, BEYOND, np.int32), np.full(columns, NOTHING, np.int32)
    may_move = np.zeros(columns, np.bool_)
    for stroke in strokes:
        rows, column = stroke.rows, stroke.column
        still[rows, column] = 1
        if stroke.on_recall:
            (untold if stroke.untold else follows)[rows, column] = True
        if stroke.untold:
            may_move[column] = True
        if stroke.values.size:
            low[column] = min(low[column], stroke.values[0])
            high[column] = max(high[column], stroke.values[-1])
    for column, answered in _answered(strokes, presets):
        decides[answered, column] = True
    still[decides] = 0
    return Cover(
        follows=follows,
        decides=decides,
        untold=untold,
        still=still,
        low=low,
        high=high,
        may_move=may_move,
        in_step=_in_step(strokes, presets, columns),
    )


def _answered(strokes: tuple[Stroke, ...], presets: int) -> Iterator[tuple[int, Truths]]:
    """Columns, and the presets on which some pedal's place is obeyed on recall, wherever it is."""
    sent = [stroke for stroke in strokes if stroke.on_recall and not stroke.untold]
    for (column, _), together in _grouped(sent, lambda one: (one.column, one.pedal)):
        yield column, _everywhere(together, presets)


def _in_step(strokes: tuple[Stroke, ...], presets: int, columns: int) -> Truths:
    """Columns that one pedal moves alike on every preset, obeyed at every place."""
    found = np.zeros(columns, np.bool_)
    for column, together in _grouped(strokes, lambda one: one.column):
        one_pedal = all(one.pedal == together[0].pedal and not one.untold for one in together)
        stairs = np.stack([one.stairs for one in together])
        alike = ((stairs == stairs.max(axis=0)) | (stairs < 0)).all()
        found[column] = one_pedal and alike and _everywhere(together, presets).all()
    return found


def _everywhere(strokes: Iterable[Stroke], presets: int) -> Truths:
    """The presets on which at least one of the strokes is obeyed at each place of the pedal."""
    obeyed = np.zeros((presets, POSITIONS), np.bool_)
    for stroke in strokes:
        obeyed[stroke.rows] |= stroke.stairs >= 0
    everywhere: Truths = np.logical_and.reduce(obeyed, axis=1)
    return everywhere


K = TypeVar("K", bound=Hashable)


def _grouped(
    strokes: Iterable[Stroke], key: Callable[[Stroke], K]
) -> Iterable[tuple[K, list[Stroke]]]:
    groups: dict[K, list[Stroke]] = {}
    for stroke in strokes:
        groups.setdefault(key(stroke), []).append(stroke)
    return groups.items()
