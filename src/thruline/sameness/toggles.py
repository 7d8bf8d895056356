"""Switches that any value flips: whether their state can be known after a recall.

A flip reverses what was there, so the state is a base (power-up, or what a program holds) and
whether it was flipped an odd number of times. A preset leaves the state known when its program sets
the switch; any other only carries on what it found. So it is known there only if all that can be
found is one and the same. As soon as one preset flips an odd number of times without setting the
switch first, recalling that preset once or twice gives either state, and all is lost.

Momentary controls act and are at rest again: harmless, and not looked at.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from thruline.rig.preset import Preset
from thruline.rig.programs import WireProgram
from thruline.rig.sweep import Sweep
from thruline.rig.unit import Unit
from thruline.rig.values import Control, ControlKind
from thruline.rig.whole import Rig
from thruline.sameness.doubts import CONTROL_CHANGE, PROGRAM_CHANGE, concerned
from thruline.sameness.strokes import Flipped, Strokes
from thruline.timing.fate import Fate
from thruline.timing.run import Run


class Deed(StrEnum):
    """What a preset does to a switch that any value flips."""

    CARRIES = "carries"
    """No flip, or an even number."""
    FLIPS = "flips"
    """An odd number of flips."""
    SETS = "sets"
    """Its program sets the switch (and flips may follow): the state is known."""
    UNTOLD = "untold"
    """The chart does not say whether a program sets it, or whether the message is obeyed."""


@dataclass(frozen=True, slots=True)
class Done:
    """What a preset does to a switch.

    `times` is how often it flips the switch (after `program` was loaded, if that sets it), or may
    flip it.
    """

    deed: Deed
    times: int
    program: WireProgram | None = None

    @property
    def is_odd(self) -> bool:
        """Whether an odd number of flips is certain."""
        return self.deed is not Deed.UNTOLD and self.times % 2 == 1


NOTHING_DONE = Done(Deed.CARRIES, 0)


@dataclass(frozen=True, slots=True)
class Flips:
    """A preset and how often it flips the switch."""

    preset: Preset
    times: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Toggle:
    """A switch of which some preset cannot know the state.

    `flipped_by` are presets that flip it an odd number of times, `swept_by` sweeps that flip it at
    every movement. `known_in` are presets that leave it known; in those of `unknown_in` it depends
    on where you came from. `untold_in` are presets of which the chart does not say enough, and
    those that carry on what they left.
    """

    unit: str
    control: Control
    flipped_by: tuple[Flips, ...]
    swept_by: tuple[Sweep, ...]
    known_in: tuple[Preset, ...]
    unknown_in: tuple[Preset, ...]
    untold_in: tuple[Preset, ...]


def toggles(
    rig: Rig, presets: Sequence[Preset], runs: Sequence[Run], *, strokes: Strokes
) -> tuple[Toggle, ...]:
    """Every switch whose state some preset cannot know, or cannot be told, unit by unit.

    `runs` stand in the order of the presets.
    """
    found = []
    for unit in rig.units.values():
        for control in unit.chart.controls.values():
            if control.kind is ControlKind.TOGGLE_ANY:
                done = [
                    (preset, done_to(unit, control, run))
                    for preset, run in zip(presets, runs, strict=True)
                ]
                flips = [
                    one for one in strokes.flips if (one.unit, one.control) == (unit.id, control)
                ]
                found.append(_toggle(unit, control, done, flips=flips))
    return tuple(one for one in found if one is not None)


def _toggle(
    unit: Unit,
    control: Control,
    done: Sequence[tuple[Preset, Done]],
    *,
    flips: Sequence[Flipped],
) -> Toggle | None:
    """What is to be said of one switch; None when nobody flips it, or to no harm."""
    flipped_by = tuple(Flips(preset, one.times) for preset, one in done if one.is_odd)
    swept_by = tuple(one.sweep for one in flips if not one.untold)
    doubtful = any(one.untold for one in flips) or any(
        one.deed is Deed.UNTOLD and one.times for _, one in done
    )
    untold = tuple(preset for preset, one in done if one.deed is Deed.UNTOLD)
    carried = tuple(preset for preset, one in done if one.deed in (Deed.CARRIES, Deed.FLIPS))
    lost = bool(swept_by) or (bool(flipped_by) and _can_differ(one for _, one in done))
    if not doubtful and not (lost and carried):
        return None
    return Toggle(
        unit=unit.id,
        control=control,
        flipped_by=flipped_by,
        swept_by=swept_by,
        known_in=tuple(preset for preset, one in done if one.deed is Deed.SETS),
        unknown_in=carried if lost else (),
        untold_in=untold if lost else (*untold, *carried),
    )


def _can_differ(done: Iterable[Done]) -> bool:
    """Whether more than one state can be found: power-up's, or one that a preset sets."""
    states: set[tuple[WireProgram | None, bool]] = {(None, False)}
    for one in done:
        if one.deed is Deed.FLIPS:
            return True
        if one.deed is Deed.SETS:
            states.add((one.program, one.is_odd))
    return len(states) > 1


def done_to(unit: Unit, control: Control, run: Run) -> Done:
    """What one preset does to a switch."""
    reception = run.receptions.get(unit.id)
    if reception is None:
        return NOTHING_DONE
    if Fate.CANNOT_TELL in reception.fates:
        unsure = _unsure(unit, control, run)
        if unsure is not None:
            return Done(Deed.UNTOLD, reception.flips.get(control.id, 0) + unsure)
    times = reception.flips.get(control.id, 0)
    if reception.program is None or control.stored is False:
        return Done(Deed.FLIPS if times % 2 else Deed.CARRIES, times)
    if control.stored is None:
        return Done(Deed.UNTOLD, times)
    after = _flips_after_program(unit, control, run) if times else 0
    return Done(Deed.SETS, after, reception.program)


def _messages(unit: Unit, run: Run) -> Iterator[tuple[bytes, Fate]]:
    """The messages that a unit heard, and what became of them."""
    fates = run.receptions[unit.id].fates
    for heard, fate in zip(run.heard[unit.id], fates, strict=True):
        yield heard.arrival.data, fate


def _unsure(unit: Unit, control: Control, run: Run) -> int | None:
    """How many flips may or may not be obeyed; None when the switch is in no doubt."""
    may_load, may_flip = False, 0
    for data, fate in _messages(unit, run):
        if fate is not Fate.CANNOT_TELL:
            continue
        if data[0] & 0xF0 == PROGRAM_CHANGE:
            may_load = may_load or control.stored is not False
        elif data[0] & 0xF0 == CONTROL_CHANGE:
            may_flip += control.id in concerned(unit.chart, data[1])
    return may_flip if may_load or may_flip else None


def _flips_after_program(unit: Unit, control: Control, run: Run) -> int:
    """How many flips are obeyed after the last program that was loaded."""
    times = 0
    for data, fate in _messages(unit, run):
        if data[0] & 0xF0 == PROGRAM_CHANGE and fate is Fate.OBEYED:
            times = 0
        elif data[0] & 0xF0 == CONTROL_CHANGE and fate in (Fate.OBEYED, Fate.HELD):
            times += control.id in concerned(unit.chart, data[1])
    return times
