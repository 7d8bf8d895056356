"""Two hands on one control: two sweeps on one preset, or a sweep and a message of the preset."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from thruline.rig.preset import Preset
from thruline.rig.sweep import Move, Sweep
from thruline.sameness.codes import Places, is_wire
from thruline.sameness.columns import Column
from thruline.sameness.effects import EffectTable
from thruline.sameness.leftovers import Sets
from thruline.sameness.strokes import Stroke


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoSweeps:
    """Two sweeps, or two moves of one sweep, that move one column on the same presets.

    With one pedal (`same_pedal`) both messages leave at every movement, and the later one stays;
    with two, whichever was moved last. `places` are the places of the two pedals at which their
    codes, `apart`, are furthest apart, by `steps`. No steps apart are harmless.
    """

    column: Column
    sweeps: tuple[Sweep, Sweep]
    moves: tuple[Move, Move]
    presets: tuple[Preset, ...]
    same_pedal: bool
    places: tuple[int, int]
    apart: tuple[int, int]
    steps: int

    @property
    def is_harmless(self) -> bool:
        """Whether it makes no difference which of the two comes last."""
        return self.steps == 0


@dataclass(frozen=True, slots=True, kw_only=True)
class SweepAndPresets:
    """A sweep on presets that also set its column by a message of their own.

    `at_an_end` are presets that set it to what the pedal gives at its heel or toe, and all of them
    when the pedal's place is sent on recall: harmless, for it says where the sweep starts.
    `elsewhere` are the others: there the message and the pedal fight.
    """

    column: Column
    sweep: Sweep
    move: Move
    at_an_end: tuple[Sets, ...]
    elsewhere: tuple[Sets, ...]
    ends: tuple[int, int]
    on_recall: bool

    @property
    def is_harmless(self) -> bool:
        """Whether no preset fights with the sweep."""
        return not self.elsewhere


def two_sweeps(table: EffectTable) -> tuple[TwoSweeps, ...]:
    """Every two strokes that share a column and a preset, in the order of the sweeps."""
    found = []
    for first, second in combinations(table.strokes.strokes, 2):
        if first.column != second.column or not (first.values.size and second.values.size):
            continue
        rows = np.intersect1d(first.rows, second.rows)
        if rows.size:
            found.append(_meeting(table, first, second, rows=rows))
    return tuple(found)


def _meeting(table: EffectTable, first: Stroke, second: Stroke, *, rows: Places) -> TwoSweeps:
    same_pedal = first.pedal == second.pedal
    places = _same_place(first, second) if same_pedal else _any_places(first, second)
    apart = int(first.stairs[places[0]]), int(second.stairs[places[1]])
    return TwoSweeps(
        column=table.layout.columns[first.column],
        sweeps=(first.sweep, second.sweep),
        moves=(first.move, second.move),
        presets=tuple(table.presets[row] for row in rows.tolist()),
        same_pedal=same_pedal,
        places=places,
        apart=apart,
        steps=abs(apart[0] - apart[1]),
    )


def _same_place(first: Stroke, second: Stroke) -> tuple[int, int]:
    """The place at which two stairs are furthest apart, where both are obeyed."""
    both = (first.stairs >= 0) & (second.stairs >= 0)
    place = int(np.where(both, np.abs(first.stairs - second.stairs), -1).argmax())
    return place, place


def _any_places(first: Stroke, second: Stroke) -> tuple[int, int]:
    """The two places at which they are furthest apart."""
    ends = [
        (first.values[0], second.values[-1]),
        (first.values[-1], second.values[0]),
    ]
    one, other = max(ends, key=lambda pair: abs(int(pair[0]) - int(pair[1])))
    return (
        int(np.flatnonzero(first.stairs == one)[0]),
        int(np.flatnonzero(second.stairs == other)[0]),
    )


def sweeps_and_presets(table: EffectTable) -> tuple[SweepAndPresets, ...]:
    """Every stroke on a preset that also sends the control a message of its own."""
    found = []
    for stroke in table.strokes.strokes:
        sets = tuple(_sets(table, stroke))
        if not sets or stroke.values.size == 0:
            continue
        ends = int(stroke.stairs[0]), int(stroke.stairs[-1])
        fits = [stroke.on_recall or one.code in ends for one in sets]
        found.append(
            SweepAndPresets(
                column=table.layout.columns[stroke.column],
                sweep=stroke.sweep,
                move=stroke.move,
                at_an_end=tuple(one for one, fit in zip(sets, fits, strict=True) if fit),
                elsewhere=tuple(one for one, fit in zip(sets, fits, strict=True) if not fit),
                ends=ends,
                on_recall=stroke.on_recall,
            )
        )
    return tuple(found)


def _sets(table: EffectTable, stroke: Stroke) -> Iterator[Sets]:
    """What the presets of a stroke send its control themselves."""
    for row in stroke.rows.tolist():
        code = int(table.own.effects[row, stroke.column])
        if is_wire(code):
            yield Sets(table.presets[row], code)
