"""What sweeps do: which columns they move, and to what at each place of the pedal.

Every message of a sweep is given to every unit that hears it, as the timing would give it, so a
neighbour that a sweep moves by mistake is moved here too.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from types import MappingProxyType
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from thruline.compose.goals import CONTROL_CHANGE, control_items
from thruline.path.hearing import Heard, Hearing
from thruline.rig.cable import Jack
from thruline.rig.preset import Preset
from thruline.rig.sweep import POSITIONS, Move, Sweep, values_of
from thruline.rig.unit import Unit
from thruline.rig.values import Control, ControlKind
from thruline.rig.whole import Rig
from thruline.sameness.codes import NOTHING, Codes, Places, seen
from thruline.sameness.columns import Layout
from thruline.sameness.doubts import Doubts, doubts_of
from thruline.timing.receive import Arrival, Listener, Reception, listener_of, receive


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stroke:
    """One column moved by one sweep.

    `rows` are the places of its presets, at least one. `stairs` has a code for each of the 128
    places of the pedal, NOTHING where the unit does not obey. `values` are those that occur, from
    the lowest, and `counts` at how many places. `untold`: whether the unit obeys at all cannot be
    told; then there are no values.
    """

    sweep: Sweep
    move: Move
    column: int
    rows: Places
    stairs: Codes
    values: Codes
    counts: NDArray[np.int64]
    on_recall: bool
    untold: bool = False

    @property
    def pedal(self) -> Jack:
        """The pedal that makes it."""
        return self.sweep.pedal


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Flipped:
    """A control that any value flips, moved by a sweep: each message of the pedal flips it.

    `untold`: whether the unit obeys at all cannot be told.
    """

    sweep: Sweep
    unit: str
    control: Control
    rows: Places
    untold: bool


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Strokes:
    """All that the sweeps of a rig move."""

    strokes: tuple[Stroke, ...] = ()
    flips: tuple[Flipped, ...] = ()


@dataclass(frozen=True, slots=True)
class Effect:
    """What a move does to one unit that may hear it: receptions by the value that was sent."""

    unit: Unit
    receptions: Mapping[int, Reception]
    doubts: Doubts


class MakeEffect(Protocol):
    """Anything that does what `effect_of` does."""

    def __call__(self, meant: Unit, move: Move, listener: Listener, /, *, certain: bool) -> Effect:
        """The effect on one unit."""
        ...


def make_stroke(
    sweep: Sweep, move: Move, *, column: int, rows: Places, stairs: Codes, on_recall: bool
) -> Stroke:
    """A stroke with what follows from its stairs."""
    values, counts = np.unique(stairs[stairs >= 0], return_counts=True)
    return Stroke(
        sweep=sweep,
        move=move,
        column=column,
        rows=rows,
        stairs=stairs,
        values=values,
        counts=counts,
        on_recall=on_recall,
    )


def effect_of(meant: Unit, move: Move, listener: Listener, /, *, certain: bool) -> Effect:
    """What a move meant for one unit does to one that hears it, or (not certain) that may."""
    receptions, doubted = {}, Doubts(frozenset())
    for value in dict.fromkeys(values_of(move)):
        items = control_items(meant, move.control, value)
        arrivals = [Arrival(at, at, item.data) for at, item in enumerate(items)]
        receptions[value] = receive(listener, arrivals)
        doubted = doubted.joined(doubts_of(listener.unit.chart, arrivals, receptions[value].fates))
    if not certain:
        touched = {name for one in receptions.values() for name in (*one.values, *one.flips)}
        doubted = Doubts(doubted.controls | touched)
    return Effect(listener.unit, receptions, doubted)


def strokes_of(
    rig: Rig,
    hearing: Hearing,
    layout: Layout,
    *,
    over: Mapping[str, str] = MappingProxyType({}),
    effect: MakeEffect = effect_of,
) -> Strokes:
    """What the sweeps of a rig move, given its board, its sweeps and the numbers of its presets.

    `over` gives for a unit the output over which the controller addresses it, where it chooses.
    `effect` stands in for `effect_of`, to keep what it gave.
    """
    strokes: list[Stroke] = []
    flips: list[Flipped] = []
    listeners = [listener_of(unit) for unit in rig.units.values() if unit.chart.listens]
    for sweep in rig.sweeps:
        rows = rows_of(rig.presets, sweep)
        if rows.size == 0:
            continue
        on_recall = sends_on_recall(rig, sweep.pedal)
        for move in sweep.moves:
            stairs = values_of(move)
            hears = partial(hearing.hears, sweep.pedal.unit, over=_socket(rig, sweep, move, over))
            for listener, certain in _who_hears(rig, move, listeners, hears=hears):
                one = effect(rig.units[move.unit], move, listener, certain=certain)
                strokes.extend(
                    make_stroke(
                        sweep, move, column=column, rows=rows, stairs=codes, on_recall=on_recall
                    )
                    for column, codes in _moved(one, stairs, layout)
                )
                strokes.extend(
                    _doubtful(sweep, move, column, rows=rows, on_recall=on_recall)
                    for column in _doubted(one, layout)
                )
                flips.extend(
                    Flipped(
                        sweep=sweep,
                        unit=one.unit.id,
                        control=control,
                        rows=rows,
                        untold=control.id in one.doubts.controls,
                    )
                    for control in _flipped(one)
                )
    return Strokes(strokes=tuple(strokes), flips=tuple(flips))


def rows_of(presets: Sequence[Preset], sweep: Sweep) -> Places:
    """The places of the presets that a sweep is on."""
    chosen = frozenset(sweep.presets)
    rows = [row for row, preset in enumerate(presets) if preset.number in chosen]
    return np.array(rows, np.intp)


def sends_on_recall(rig: Rig, pedal: Jack) -> bool:
    """Whether a recall also sends where this pedal stands."""
    unit = rig.units.get(pedal.unit)
    entry = unit.chart.pedals.get(pedal.socket) if unit else None
    return entry is not None and entry.on_recall


def _socket(rig: Rig, sweep: Sweep, move: Move, over: Mapping[str, str]) -> str | None:
    """The output that a move leaves by; None when that is every one."""
    own = rig.controller is not None and sweep.pedal.unit == rig.controller.id
    return over.get(move.unit) if own else None


def _who_hears(
    rig: Rig, move: Move, listeners: Iterable[Listener], *, hears: Callable[..., Heard]
) -> Iterator[tuple[Listener, bool]]:
    """Each unit that hears a move, or may (then it is not certain)."""
    channel = rig.units[move.unit].sent_on
    if channel is None:
        return
    for listener in listeners:
        if listener.hears[channel - 1] is False:
            continue
        status = CONTROL_CHANGE | (channel - 1)
        heard = hears(listener.unit.id, status=status)
        if heard is not Heard.NO:
            yield listener, heard is Heard.YES


def _moved(effect: Effect, stairs: Sequence[int], layout: Layout) -> Iterator[tuple[int, Codes]]:
    """Each column that surely moves, with its code at each place of the pedal."""
    known = effect.unit.chart.controls
    names = {name: None for one in effect.receptions.values() for name in one.values}
    for name in names:
        if name in effect.doubts.controls:
            continue
        steps = {
            sent: seen(known[name], one.values[name]) if name in one.values else NOTHING
            for sent, one in effect.receptions.items()
        }
        codes = np.array([steps[sent] for sent in stairs], np.int32)
        yield layout.find(effect.unit.id, name), codes


def _doubted(effect: Effect, layout: Layout) -> Iterator[int]:
    """Each column that may or may not move."""
    for name in sorted(effect.doubts.controls):
        if effect.unit.chart.controls[name].kind not in (
            ControlKind.MOMENTARY,
            ControlKind.TOGGLE_ANY,
        ):
            yield layout.find(effect.unit.id, name)


def _doubtful(sweep: Sweep, move: Move, column: int, *, rows: Places, on_recall: bool) -> Stroke:
    """A stroke of which nobody can tell whether it moves anything."""
    nothing = np.full(POSITIONS, NOTHING, np.int32)
    return Stroke(
        sweep=sweep,
        move=move,
        column=column,
        rows=rows,
        stairs=nothing,
        values=nothing[:0],
        counts=np.zeros(0, np.int64),
        on_recall=on_recall,
        untold=True,
    )


def _flipped(effect: Effect) -> Iterator[Control]:
    """Controls that any value flips, and that are, or may be, flipped."""
    for name, control in effect.unit.chart.controls.items():
        if control.kind is ControlKind.TOGGLE_ANY and (
            name in effect.doubts.controls
            or any(name in one.flips for one in effect.receptions.values())
        ):
            yield control
