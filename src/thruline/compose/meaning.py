"""What each message of a sending says, held against what the preset asks for.

Every value in its three forms: as the document has it, as it is on the wire, as the unit shows it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from thruline.base.errors import CannotUse
from thruline.compose.goals import goals_by_unit
from thruline.midi.decode import decode
from thruline.midi.words import in_words
from thruline.rig.preset import Goal, Preset
from thruline.rig.programs import BankBytes, WireProgram, wire_to_label
from thruline.rig.unit import Unit
from thruline.rig.values import Control, ControlMessage, Value, shown
from thruline.rig.whole import Rig
from thruline.timing.receive import (
    DATA_LSB,
    DATA_MSB,
    NRPN_LSB,
    NRPN_MSB,
    RPN_LSB,
    RPN_MSB,
    Reception,
)
from thruline.timing.run import Run
from thruline.timing.sending import Item, Purpose


@dataclass(frozen=True, slots=True, kw_only=True)
class Meaning:
    """What one message says.

    `raw` is the message by itself, `says` the same in the words of its unit. `written` is the goal
    as the document has it, empty where it asks for no such thing. `wire` is the value that goes
    over the wire (of a message that is one part of several: the whole value) and `shown` what the
    unit then displays, empty where that does not follow from it. `as_wanted` is False where the
    document asks for something else, None where it asks for nothing.
    """

    raw: str
    says: str
    written: str = ""
    wire: int | None = None
    shown: str = ""
    as_wanted: bool | None = None


def meanings(rig: Rig, preset: Preset, run: Run) -> tuple[Meaning, ...]:
    """What each message of a preset's run says, in the order of the sending."""
    goals = goals_by_unit(rig, preset)
    return tuple(_meaning(rig, run, item, goals) for item in run.sending.items)


def _meaning(rig: Rig, run: Run, item: Item, goals: Mapping[str, Goal]) -> Meaning:
    raw = _raw(item.data)
    unit = rig.units.get(item.unit) if item.unit is not None else None
    if unit is None:
        return Meaning(raw=raw, says=raw)
    goal, reception = goals.get(unit.id), run.receptions.get(unit.id)
    match item.purpose:
        case Purpose.PROGRAM:
            return _program(unit, goal, item=item, reception=reception)
        case Purpose.BANK:
            return _bank(unit, goal, item)
        case _:
            control = unit.chart.controls.get(item.part or "")
            if control is None:
                return Meaning(raw=raw, says=f"{unit.name}: {raw}")
            return _control(unit, control, goal, item=item, reception=reception)


def _raw(data: bytes) -> str:
    """The bytes in words; the bytes themselves where they are no whole message."""
    try:
        return in_words(decode(data))
    except CannotUse:
        return f"bytes {data.hex(' ').upper()}"


def _program(unit: Unit, goal: Goal | None, *, item: Item, reception: Reception | None) -> Meaning:
    number, numbering = item.data[1], unit.chart.programs
    asked = goal.program if goal else None
    loaded = reception.program if reception else None
    if loaded is None or loaded.program != number:
        alone = numbering is not None and numbering.bank_bytes is BankBytes.NONE
        loaded = WireProgram(numbering.first_bank, number) if numbering and alone else None
    if loaded is None and asked and asked.wire and asked.wire.program == number:
        loaded = asked.wire
    label = wire_to_label(numbering, loaded) if numbering and loaded else None
    return Meaning(
        raw=_raw(item.data),
        says=f"{unit.name}: program {label or number}",
        written=asked.label if asked else "",
        wire=number,
        shown=label or "",
        as_wanted=asked.wire == loaded if asked and loaded else None,
    )


def _bank(unit: Unit, goal: Goal | None, item: Item) -> Meaning:
    asked = goal.program if goal else None
    which = "coarse" if item.data[1] == 0 else "fine"
    return Meaning(
        raw=_raw(item.data),
        says=f"{unit.name}: bank {item.data[2]} ({which})",
        written=asked.label if asked else "",
        wire=item.data[2],
    )


def _control(
    unit: Unit,
    control: Control,
    goal: Goal | None,
    *,
    item: Item,
    reception: Reception | None,
) -> Meaning:
    asked = (
        next((one.value for one in goal.controls if one.control == control), None) if goal else None
    )
    wanted = asked if isinstance(asked, Value) else None
    wire = _whole(control, item, reception)
    if wire is None:
        wire = wanted.wire if wanted else None
    part = _part(control, item.data[1], item.data[2])
    display = "" if wire is None else shown(control, wire)
    return Meaning(
        raw=_raw(item.data),
        says=f"{unit.name}: {control.name} {display}{part}".rstrip(),
        written=asked.written if asked else "",
        wire=wire,
        shown=display,
        as_wanted=wanted.wire == wire if wanted and wire is not None else None,
    )


def _whole(control: Control, item: Item, reception: Reception | None) -> int | None:
    """The whole value that a control is given; None where the unit was not given it."""
    if control.message is ControlMessage.CC:
        return item.data[2]
    if reception is None:
        return None
    return reception.values.get(control.id, reception.before_program.get(control.id))


_PARTS: Mapping[int, str] = MappingProxyType(
    {
        NRPN_MSB: "select, coarse",
        NRPN_LSB: "select, fine",
        RPN_MSB: "select, coarse",
        RPN_LSB: "select, fine",
        DATA_MSB: "value, coarse",
        DATA_LSB: "value, fine",
    }
)
"""What each message of a parameter is for, by control number (MIDI 1.0)."""


def _part(control: Control, number: int, value: int) -> str:
    """Which part of its control a message is, where there are several."""
    match control.message:
        case ControlMessage.CC:
            return ""
        case ControlMessage.CC14:
            return " (coarse)" if number == control.number else " (fine)"
        case _:
            closes = number in (RPN_MSB, RPN_LSB) and value == 127
            return " (closed again)" if closes else f" ({_PARTS.get(number, 'part')})"
