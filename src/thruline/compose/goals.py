"""A preset's goals to the messages that fulfil them, unit by unit, in no order yet."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from thruline.rig.preset import ControlGoal, Goal, Preset
from thruline.rig.programs import BankBytes, Numbering, WireProgram
from thruline.rig.unit import Unit
from thruline.rig.values import Control, ControlMessage, Value
from thruline.rig.whole import Rig
from thruline.timing.receive import (
    BANK_LSB,
    BANK_MSB,
    DATA_LSB,
    DATA_MSB,
    NRPN_LSB,
    NRPN_MSB,
    RPN_LSB,
    RPN_MSB,
)
from thruline.timing.sending import Item, Purpose

CONTROL_CHANGE = 0xB0
PROGRAM_CHANGE = 0xC0


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What one unit is to be sent.

    The head (bank select, program change) must stay in one piece; so must the messages of each
    control, a group each.
    """

    unit: Unit
    head: tuple[Item, ...]
    groups: tuple[tuple[Item, ...], ...]


def wanted_of(
    rig: Rig, preset: Preset, want: Callable[[Unit, Goal], Wanted] | None = None
) -> tuple[Wanted, ...]:
    """Everything a preset wants over MIDI, unit by unit in board order.

    Goals that make no sense (no such label, a value out of range) and units without a channel are
    left out: the proof reports them. `want` stands in for `wanted_from`, to keep what it gave.
    """
    merged = goals_by_unit(rig, preset)
    units = (rig.units[name] for name in merged)
    asked = [unit for unit in units if unit.sent_on is not None and unit is not rig.controller]
    asked.sort(key=lambda unit: unit.order)
    found = [(want or wanted_from)(unit, merged[unit.id]) for unit in asked]
    return tuple(one for one in found if one.head or one.groups)


def wanted_from(unit: Unit, goal: Goal) -> Wanted:
    """What one unit is to be sent for a goal; without head and groups when that is nothing."""
    return Wanted(
        unit=unit,
        head=_head(unit, goal),
        groups=tuple(
            control_items(unit, one.control, one.value.wire)
            for one in goal.controls
            if isinstance(one.value, Value)
        ),
    )


def goals_by_unit(rig: Rig, preset: Preset) -> Mapping[str, Goal]:
    """Goals by unit; the state of a loop in a MIDI loop box becomes a control goal of that box."""
    merged = {goal.unit: goal for goal in preset.goals}
    for goal in preset.goals:
        if goal.in_loop is None:
            continue
        added = loop_control(rig, goal)
        if added is not None:
            box, control, value = added
            before = merged.get(box, Goal(unit=box))
            merged[box] = Goal(
                unit=box,
                program=before.program,
                controls=(*before.controls, _control_goal(control, value)),
                in_loop=before.in_loop,
            )
    return merged


def loop_control(rig: Rig, goal: Goal) -> tuple[str, Control, int] | None:
    """The loop box, its control and the value that puts a unit's loop in or out over MIDI.

    None when the goal says nothing of a loop, when the loop is a relay of the controller itself,
    or when its owner's chart has no control of the loop's id.
    """
    hung = rig.audio.loop_of(goal.unit) if rig.audio else None
    if goal.in_loop is None or hung is None:
        return None
    owner = rig.units.get(hung[0])
    if owner is None or owner is rig.controller:
        return None
    control = owner.chart.controls.get(hung[1])
    return (
        None
        if control is None
        else (owner.id, control, control.high if goal.in_loop else control.low)
    )


def _control_goal(control: Control, value: int) -> ControlGoal:
    return ControlGoal(control, Value("in" if value == control.high else "out", value, str(value)))


def _head(unit: Unit, goal: Goal) -> tuple[Item, ...]:
    if goal.program is None or goal.program.wire is None or unit.chart.programs is None:
        return ()
    return program_items(unit, unit.chart.programs, goal.program.wire)


def program_items(unit: Unit, numbering: Numbering, wire: WireProgram) -> tuple[Item, ...]:
    """Bank select, coarse before fine, then the program change (MIDI 1.0)."""
    channel = (unit.sent_on or 1) - 1
    banks = bank_controls(numbering.bank_bytes, wire.bank)
    heads = [
        Item(
            data=bytes((CONTROL_CHANGE | channel, number, value)),
            purpose=Purpose.BANK,
            unit=unit.id,
            part="program",
        )
        for number, value in banks
    ]
    program = Item(
        data=bytes((PROGRAM_CHANGE | channel, wire.program)),
        purpose=Purpose.PROGRAM,
        unit=unit.id,
        part="program",
    )
    return (*heads, program)


def bank_controls(reads: BankBytes, bank: int) -> tuple[tuple[int, int], ...]:
    """Control numbers and values that select a bank, for a unit that reads these bytes of it."""
    match reads:
        case BankBytes.NONE:
            return ()
        case BankBytes.MSB:
            return ((BANK_MSB, bank & 0x7F),)
        case BankBytes.LSB:
            return ((BANK_LSB, bank & 0x7F),)
        case BankBytes.BOTH:
            return ((BANK_MSB, bank >> 7), (BANK_LSB, bank & 0x7F))


def control_items(unit: Unit, control: Control, value: int) -> tuple[Item, ...]:
    """The messages that give a control its value, which must stay together and in this order."""
    status = CONTROL_CHANGE | ((unit.sent_on or 1) - 1)
    return tuple(
        Item(
            data=bytes((status, number, byte)),
            purpose=Purpose.CONTROL,
            unit=unit.id,
            part=control.id,
        )
        for number, byte in control_bytes(control, value)
    )


def control_bytes(control: Control, value: int) -> Iterable[tuple[int, int]]:
    """Control numbers and values for a control.

    A parameter ends with the null selection, so that later data entry cannot change it by chance.
    """
    match control.message:
        case ControlMessage.CC:
            return ((control.number, value),)
        case ControlMessage.CC14:
            return ((control.number, value >> 7), (control.number + 32, value & 0x7F))
        case ControlMessage.RPN:
            select, fine = RPN_MSB, RPN_LSB
        case ControlMessage.NRPN:
            select, fine = NRPN_MSB, NRPN_LSB
    entry = (
        ((DATA_MSB, value),)
        if control.high <= 127
        else ((DATA_MSB, value >> 7), (DATA_LSB, value & 0x7F))
    )
    pick = ((select, control.number >> 7), (fine, control.number & 0x7F))
    return (*pick, *entry, (RPN_MSB, 127), (RPN_LSB, 127))
