"""What a stored preset does, held against what its goals ask for."""

from collections.abc import Iterator
from dataclasses import dataclass

from thruline.proof.case import Case
from thruline.rig.preset import Preset
from thruline.rig.programs import WireProgram, wire_to_label
from thruline.rig.unit import Unit, takes_program
from thruline.rig.values import ControlKind, Value
from thruline.timing.run import Run


@dataclass(frozen=True, slots=True)
class WrongProgram:
    """A unit that ends on another program than wanted; `got` is None when it gets none."""

    unit: Unit
    label: str
    wanted: WireProgram
    got: WireProgram | None

    @property
    def got_label(self) -> str:
        """What the unit's display shows instead."""
        numbering = self.unit.chart.programs
        if self.got is None or numbering is None:
            return "no program"
        return wire_to_label(numbering, self.got) or f"program {self.got.program}"

    @property
    def off_by(self) -> int | None:
        """How far the program number is off in the same bank; None when that is not the trouble."""
        if self.got is None or self.got.bank != self.wanted.bank:
            return None
        return self.got.program - self.wanted.program


def wrong_programs(case: Case, preset: Preset) -> Iterator[WrongProgram]:
    """Units that a stored preset leaves on another program than the goals ask for.

    A unit that none of the preset's messages reach is left to the rules about arrival, and one that
    takes no program changes to the rule about that. What is missing where a message cannot be read
    may be that message.
    """
    if preset.stored is None:
        return
    run = case.run(preset)
    for goal in preset.goals:
        wire = goal.program.wire if goal.program else None
        reception = run.receptions.get(goal.unit)
        unit = case.rig.units[goal.unit]
        if wire is None or goal.program is None or reception is None or not takes_program(unit):
            continue
        if not run.heard[goal.unit]:
            continue
        if reception.program is None and preset.unread:
            continue
        if reception.program != wire and not _old_bank_only(run, goal.unit, wire):
            yield WrongProgram(
                case.rig.units[goal.unit], goal.program.label, wire, reception.program
            )


def _old_bank_only(run: Run, unit: str, wanted: WireProgram) -> bool:
    """Whether the number is right and only the bank is left from before."""
    reception = run.receptions[unit]
    same = reception.program is not None and reception.program.program == wanted.program
    return reception.old_bank and same


@dataclass(frozen=True, slots=True)
class WrongValue:
    """A control that a stored preset leaves at another value than wanted; `got` None for none."""

    unit: Unit
    control: str
    wanted: Value
    got: int | None


def wrong_values(case: Case, preset: Preset) -> Iterator[WrongValue]:
    """Controls that the goals ask for and the stored messages leave otherwise."""
    if preset.stored is None:
        return
    run = case.run(preset)
    for goal in preset.goals:
        reception = run.receptions.get(goal.unit)
        if reception is None:
            continue
        for one in goal.controls:
            plain = one.control.kind not in (ControlKind.TOGGLE_ANY, ControlKind.MOMENTARY)
            if not isinstance(one.value, Value) or not plain:
                continue
            got = reception.values.get(one.control.id)
            if got is None and preset.unread:
                continue
            if got != one.value.wire and not _sent(run, goal.unit, one.control.id):
                yield WrongValue(case.rig.units[goal.unit], one.control.name, one.value, None)
            elif got is not None and got != one.value.wire:
                yield WrongValue(case.rig.units[goal.unit], one.control.name, one.value, got)


def _sent(run: Run, unit: str, control: str) -> bool:
    """Whether some message for this control is sent at all; then other rules say why it failed."""
    return any(item.unit == unit and item.part == control for item in run.sending.items)
