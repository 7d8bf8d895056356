"""Sweeps that jump: a preset is recalled, the pedal is touched, and the control leaps to its place.

A pedal keeps its place from preset to preset. If its input sends that place on recall, nothing can
jump. Otherwise the control has the value that the preset found or set, and the first movement
sends the value at the pedal's place. A jump is the difference, in steps of the wire value.

When the preset keeps the control, its value may have been left by the same pedal through the same
stairs; then it fits the pedal's place, unless the pedal was moved meanwhile on a preset on which it
does not move the control.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from thruline.rig.preset import Preset
from thruline.rig.sweep import Move, Sweep
from thruline.sameness.codes import KEEPS, is_wire
from thruline.sameness.columns import Column
from thruline.sameness.effects import EffectTable
from thruline.sameness.held import left_by_presets
from thruline.sameness.strokes import Stroke
from thruline.sameness.witness import History


@dataclass(frozen=True, slots=True, kw_only=True)
class Jump:
    """The largest jump of one control on one preset.

    The control is at `code`; with the pedal standing at `place` the first movement sends `to`.
    `steps` is the difference, None when `code` is not a number that is known. `came_from` says how
    the control got there when the preset itself does not set it.
    """

    preset: Preset
    code: int
    place: int
    to: int
    steps: int | None
    came_from: History | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Jumps:
    """One sweep that jumps on one control: the presets on which it can, in their order."""

    sweep: Sweep
    move: Move
    column: Column
    jumps: tuple[Jump, ...]

    @property
    def worst(self) -> Jump:
        """The largest jump that is known, or else the first."""
        return max(self.jumps, key=lambda one: -1 if one.steps is None else one.steps)


@dataclass(frozen=True, slots=True)
class _Leap:
    """From a code to the stairs at a place; `steps` is None when the code is no number."""

    steps: int | None
    code: int
    place: int
    came_from: History | None = None

    @property
    def size(self) -> int:
        """For comparing: what is not known counts less than anything that is, but for nothing."""
        return 1 if self.steps is None else 2 * self.steps


def jumps(table: EffectTable) -> tuple[Jumps, ...]:
    """Every sweep that jumps on some preset, once for each column that it moves."""
    found = []
    for stroke in table.strokes.strokes:
        told = tuple(_jumps_of(table, stroke))
        if told:
            found.append(
                Jumps(
                    sweep=stroke.sweep,
                    move=stroke.move,
                    column=table.layout.columns[stroke.column],
                    jumps=told,
                )
            )
    return tuple(found)


def _jumps_of(table: EffectTable, stroke: Stroke) -> Iterator[Jump]:
    """The jump of one stroke on each preset where there is one."""
    if stroke.on_recall or stroke.values.size == 0:
        return
    column = stroke.column
    kept = _kept_leap(table, stroke) if table.asks[stroke.rows, column].any() else None
    for row in stroke.rows.tolist():
        code = int(table.effects[row, column])
        leap = kept if code == KEEPS else _leap(stroke, code) if code >= 0 else None
        if leap is None or leap.steps == 0 or table.cover.decides[row, column]:
            continue
        yield Jump(
            preset=table.presets[row],
            code=leap.code,
            place=leap.place,
            to=int(stroke.stairs[leap.place]),
            steps=leap.steps,
            came_from=leap.came_from,
        )


def _leap(stroke: Stroke, code: int, came_from: History | None = None) -> _Leap:
    """The largest leap from a code, with the pedal anywhere."""
    if not is_wire(code):
        return _Leap(None, code, _place_of(stroke, int(stroke.values[-1])), came_from)
    to = max((int(stroke.values[0]), int(stroke.values[-1])), key=lambda one: abs(one - code))
    return _Leap(abs(to - code), code, _place_of(stroke, to), came_from)


def _place_of(stroke: Stroke, code: int) -> int:
    return int(np.flatnonzero(stroke.stairs == code)[0])


def _kept_leap(table: EffectTable, stroke: Stroke) -> _Leap:
    """The largest leap on a preset that keeps the control: from what was left there before.

    Power-up counts only when nothing else makes the control leap.
    """
    leaps = [*_from_presets(table, stroke), *_from_strokes(table, stroke)]
    worst = max(leaps, key=lambda leap: leap.size)
    if worst.steps != 0:
        return worst
    power_up = int(table.layout.power_up[stroke.column])
    return _leap(stroke, power_up, History(code=power_up))


def _from_presets(table: EffectTable, stroke: Stroke) -> Iterator[_Leap]:
    """From each code that a preset leaves; of presets with the same code, the first."""
    rows = np.flatnonzero(left_by_presets(table, stroke.column))
    codes, firsts = np.unique(table.effects[rows, stroke.column], return_index=True)
    for code, first in zip(codes.tolist(), firsts.tolist(), strict=True):
        yield _leap(stroke, code, History(preset=table.presets[rows[first]], code=code))


def _from_strokes(table: EffectTable, stroke: Stroke) -> Iterator[_Leap]:
    """From what this stroke or another one left."""
    strays = _strays(table, stroke)
    for other in table.strokes.strokes:
        if other.column != stroke.column or other.values.size == 0:
            continue
        if other.pedal != stroke.pedal or strays:
            low, high = int(other.values[0]), int(other.values[-1])
            leap = max(_leap(stroke, low), _leap(stroke, high), key=lambda one: one.size)
            left_at = _place_of(other, leap.code)
        else:
            leap = _same_place(stroke, other)
            left_at = leap.place
        preset = table.presets[int(other.rows[0])]
        came_from = History(code=leap.code, preset=preset, sweep=other.sweep, place=left_at)
        yield _Leap(leap.steps, leap.code, leap.place, came_from)


def _same_place(stroke: Stroke, other: Stroke) -> _Leap:
    """The largest leap from one stroke's stairs to another's at one and the same place."""
    both = (stroke.stairs >= 0) & (other.stairs >= 0)
    apart = np.where(both, np.abs(stroke.stairs - other.stairs), 0)
    place = int(apart.argmax())
    return _Leap(int(apart[place]), int(other.stairs[place]), place)


def _strays(table: EffectTable, stroke: Stroke) -> bool:
    """Whether the pedal can be moved on a preset that keeps the control, without moving it."""
    keeps = table.effects[:, stroke.column] == KEEPS
    for other in table.strokes.strokes:
        if other.column == stroke.column and other.pedal == stroke.pedal:
            keeps[other.rows] = False
    return bool(keeps.any())
