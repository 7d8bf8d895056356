"""Two histories after which the same preset finds two different values."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from thruline.rig.preset import Preset
from thruline.rig.sweep import Sweep
from thruline.sameness.codes import Codes, Places, is_wire
from thruline.sameness.held import SEVERAL, Cause, Held, cause_of, left_by_presets
from thruline.sameness.strokes import Stroke


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """Where one comes from, and the code that is left.

    From power-up when there is no preset; with a sweep, its pedal was put to `place` (0 to 127)
    while the preset was on.
    """

    code: int
    preset: Preset | None = None
    sweep: Sweep | None = None
    place: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Witness:
    """A preset, and two ways to come to it that leave two values.

    Pedals may stand anywhere at first. (Where both presets of a history are sent the place of one
    pedal, and neither obeys it everywhere, a third preset may be needed in between to move it.)
    """

    entered: Preset
    first: History
    second: History


_NEVER = np.iinfo(np.intp).max


def witnesses(held: Held, column: int) -> Iterator[Witness]:
    """One for each preset in which the column is left over, in their order.

    Presets that lie near are preferred, for a person tries those first; so are presets before
    pedals, and pedals before power-up.
    """
    rows = np.flatnonzero(held.entering[:, column] == SEVERAL)
    match cause_of(held, column):
        case Cause.PRESETS:
            yield from _by_presets(held, column, rows)
        case Cause.PEDAL:
            for row in rows.tolist():
                first, second = _by_pedal(held, column, row)
                yield _witness(held, row, first, second)
        case Cause.POWER_UP:
            start = History(code=int(held.table.layout.power_up[column]))
            for row in rows.tolist():
                yield _witness(held, row, start, _any_other(held, column, row))
        case None:
            return


def _witness(held: Held, row: int, first: History, second: History) -> Witness:
    return Witness(entered=held.table.presets[row], first=first, second=second)


def _setters(held: Held, column: int) -> tuple[Places, Codes]:
    """The presets that leave a value of their own, and the values."""
    rows = np.flatnonzero(left_by_presets(held.table, column))
    return rows, held.table.effects[rows, column]


def _far(held: Held, column: int, rows: Places, *, setters: Places) -> Places:
    """How far the presets that set a column are from others: rows x setters.

    Those on which a pedal's place is sent come after all others, for they leave their own value
    only where the unit does not obey the pedal.
    """
    count = len(held.table.presets)
    far: Places = np.abs(setters[None, :] - rows[:, None])
    far[setters[None, :] == rows[:, None]] = count
    far[:, held.table.cover.follows[setters, column]] += 2 * count
    return far


def _by_presets(held: Held, column: int, rows: Places) -> Iterator[Witness]:
    """The nearest preset that sets the column, and the nearest that sets it differently."""
    presets = held.table.presets
    setters, codes = _setters(held, column)
    far = _far(held, column, rows, setters=setters)
    near = far.argmin(axis=1)
    second = np.where(codes == codes[near][:, None], _NEVER, far).argmin(axis=1)
    histories = {
        place: History(preset=presets[setters[place]], code=int(codes[place]))
        for place in {*near.tolist(), *second.tolist()}
    }
    for row, one, other in zip(rows.tolist(), near.tolist(), second.tolist(), strict=True):
        yield _witness(held, row, histories[one], histories[other])


def _by_pedal(held: Held, column: int, row: int) -> tuple[History, History]:
    """What the nearest preset leaves, or else a pedal; and a pedal where it differs most."""
    strokes = _strokes_near(held, column, row)
    setters, codes = _setters(held, column)
    if setters.size:
        near = int(_far(held, column, np.array([row]), setters=setters).argmin())
        preset = held.table.presets[setters[near]]
        first = History(preset=preset, code=int(codes[near]))
    else:
        first = _at(held, row, strokes[0], int(strokes[0].values[0]))
    stroke = next(one for one in strokes if (one.values != first.code).any())
    return first, _at(held, row, stroke, _furthest(stroke, first.code))


def _any_other(held: Held, column: int, row: int) -> History:
    """What any preset or pedal leaves: all leave the same."""
    setters, codes = _setters(held, column)
    if setters.size:
        near = int(_far(held, column, np.array([row]), setters=setters).argmin())
        return History(preset=held.table.presets[setters[near]], code=int(codes[near]))
    stroke = _strokes_near(held, column, row)[0]
    return _at(held, row, stroke, int(stroke.values[0]))


def _strokes_near(held: Held, column: int, row: int) -> list[Stroke]:
    """The strokes of a column that leave anything, the one on the nearest preset first."""
    strokes = [
        one for one in held.table.strokes.strokes if one.column == column and one.values.size
    ]
    return sorted(strokes, key=lambda one: int(np.abs(one.rows - row).min()))


def _furthest(stroke: Stroke, code: int) -> int:
    """The value of a stroke that is furthest from another value."""
    values = stroke.values
    if not is_wire(code):
        return int(values[-1])
    return int(values[np.abs(values.astype(np.int64) - code).argmax()])


def _at(held: Held, row: int, stroke: Stroke, code: int) -> History:
    """A stroke that leaves a code, on the preset of its own that is nearest."""
    near = int(stroke.rows[np.abs(stroke.rows - row).argmin()])
    return History(
        preset=held.table.presets[near],
        sweep=stroke.sweep,
        place=int(np.flatnonzero(stroke.stairs == code)[0]),
        code=code,
    )
