"""What learned messages mean by the charts of the units: goals as a person would write them."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from thruline.audit.travels import (
    CONTROL_STATUS,
    ENTRIES,
    SELECTORS,
    code_of_parameter,
    message_of,
)
from thruline.learn.agree import Agreed
from thruline.learn.travels import Moved
from thruline.midi.message import ControlChange
from thruline.midi.parameters import NOTHING_SELECTED, Entry, Selection, hear
from thruline.rig.preset import Stored, StoredControl, StoredPause, StoredProgram, StoredRaw
from thruline.rig.programs import BankBytes, WireProgram, bank_in, wire_to_label
from thruline.rig.readings import Part
from thruline.rig.unit import Unit
from thruline.rig.values import Control, ControlMessage, Value, read_value, shown
from thruline.timing.receive import BANK_LSB, BANK_MSB

PROGRAM_STATUS = 0xC0
SYSTEM = 0xF0
Written = int | str
"""A value as it is written in a document."""


@dataclass(slots=True)
class Goals:
    """What a preset wants, by unit: `program` and controls. `unknown` are sentences."""

    by_unit: dict[str, dict[str, Written]] = field(default_factory=dict)
    unknown: list[str] = field(default_factory=list)


@dataclass(slots=True)
class _Registers:
    """What earlier messages of a preset have left on one channel."""

    banks: dict[int, int] = field(default_factory=dict)
    selection: Selection = NOTHING_SELECTED
    coarse: dict[str, int] = field(default_factory=dict)


def goals_of(agreed: Sequence[Agreed], units: Mapping[int, Unit]) -> Goals:
    """The goals behind a preset's messages; `units` by channel, 1 to 16."""
    goals = Goals()
    registers: dict[int, _Registers] = {}
    for one in agreed:
        data = one.data
        channel = (data[0] & 0x0F) + 1
        unit = units.get(channel) if data[0] < SYSTEM else None
        if unit is None:
            where = "for no channel" if data[0] >= SYSTEM else f"on channel {channel}"
            goals.unknown.append(f"what {data.hex(' ').upper()} {where} is for")
            continue
        wanted = goals.by_unit.setdefault(unit.id, {})
        mine = registers.setdefault(channel, _Registers())
        for found in _means(data, unit, mine):
            match found:
                case str():
                    goals.unknown.append(found)
                case (name, value):
                    wanted[name] = value
    goals.by_unit = {unit: wanted for unit, wanted in goals.by_unit.items() if wanted}
    return goals


def _means(data: bytes, unit: Unit, mine: _Registers) -> Iterator[str | tuple[str, Written]]:
    """What a message says: a goal with its value, or a sentence about what nobody knows."""
    match data[0] & 0xF0:
        case 0xC0:
            yield _program(data[1], unit, mine)
        case 0xB0:
            yield from _control(data[1], data[2], unit, mine)
        case _:
            yield f"what {data.hex(' ').upper()} does at {unit.name}"


def _program(number: int, unit: Unit, mine: _Registers) -> str | tuple[str, Written]:
    numbering = unit.chart.programs
    if numbering is None:
        return f"which program {number} of {unit.name} is: its chart lists none"
    rest = numbering.bank_at_rest
    bank = bank_in(numbering, mine.banks.get(BANK_MSB, rest), mine.banks.get(BANK_LSB, rest))
    mine.coarse.clear()
    if numbering.bank_cleared:
        mine.banks.clear()
    if bank is None:
        return f"which bank program {number} of {unit.name} is in: no whole bank select came"
    label = wire_to_label(numbering, WireProgram(bank, number))
    if label is None:
        return f"which program bank {bank}, number {number} of {unit.name} is: it has none there"
    return "program", int(label) if label == str(_number(label)) else label


def _number(label: str) -> int:
    """A label as a number, where it is one."""
    return int(label) if label.isascii() and label.isdigit() else -1


def _control(
    number: int, value: int, unit: Unit, mine: _Registers
) -> Iterator[str | tuple[str, Written]]:
    chart = unit.chart
    numbering = chart.programs
    reads_banks = numbering is not None and numbering.bank_bytes is not BankBytes.NONE
    if number in (BANK_MSB, BANK_LSB) and reads_banks:
        mine.banks[number] = value
        return
    if number in SELECTORS | ENTRIES and chart.readings.parameters:
        yield from _parameter(number, value, unit, mine)
        return
    readings = chart.readings.plain.get(number, ())
    if not readings:
        yield f"what control {number} = {value} does at {unit.name}: its chart has none of it"
    for reading in readings:
        control = reading.control
        if reading.part is Part.WHOLE:
            yield control.id, written(control, value)
        else:
            yield _half(control, value, unit, mine, is_fine=reading.part is Part.FINE)


def _half(
    control: Control, value: int, unit: Unit, mine: _Registers, *, is_fine: bool
) -> str | tuple[str, Written]:
    """What half of a value makes of the whole; the coarse half clears the fine one."""
    if not is_fine:
        mine.coarse[control.id] = value << 7
        return control.id, written(control, value << 7)
    if control.id not in mine.coarse:
        return f"which {control.id} {unit.name} gets: only the fine half of it came, {value}"
    return control.id, written(control, mine.coarse[control.id] + value)


def _parameter(
    number: int, value: int, unit: Unit, mine: _Registers
) -> Iterator[str | tuple[str, Written]]:
    """A selector, or data entry that gives the selected parameter a half of its value."""
    mine.selection, entered = hear(mine.selection, ControlChange(1, number, value))
    if entered is None:
        return
    message, which = message_of(code_of_parameter(entered.parameter))
    control = unit.chart.readings.parameters.get((message, which))
    if control is None:
        yield f"what parameter {which} ({message.value.upper()}) does at {unit.name}"
        return
    if control.high <= 127:
        yield control.id, written(control, value)
    else:
        yield _half(control, value, unit, mine, is_fine=entered.entry is Entry.FINE)


def written(control: Control, wire: int) -> Written:
    """A value as a person would write it: what the unit shows, where that means just this value."""
    text = shown(control, wire)
    value = read_value(control, text)
    is_exact = isinstance(value, Value) and value.wire == wire
    return text if is_exact and text != str(wire) else wire


def control_moved(moved: Moved, unit: Unit) -> Control | None:
    """The control of a unit that a pedal moves; None when its chart lists none."""
    message, number = message_of(moved.code)
    if message is not ControlMessage.CC:
        return unit.chart.readings.parameters.get((message, number))
    for reading in unit.chart.readings.plain.get(number, ()):
        if (reading.part is Part.COARSE) == moved.is_pair and reading.part is not Part.FINE:
            return reading.control
    return None


def stored_of(
    agreed: Sequence[Agreed], pauses: Sequence[int], *, programs_from: int
) -> Iterator[Stored]:
    """The messages as they must stand in the controller's memory, pauses before them in ms."""
    for one, pause_ms in zip(agreed, pauses, strict=True):
        if pause_ms:
            yield StoredPause(pause_ms)
        data, channel = one.data, (one.data[0] & 0x0F) + 1
        match data[0] & 0xF0:
            case 0xC0:
                yield StoredProgram(channel, data[1] + programs_from, data[1])
            case 0xB0:
                yield StoredControl(channel, data[1], data[2])
            case _:
                yield StoredRaw(tuple(data))


def knows(units: Mapping[int, Unit], data: bytes) -> bool | None:
    """Whether the chart of a message's unit knows such a message; None without a chart."""
    unit = units.get((data[0] & 0x0F) + 1) if data[0] < SYSTEM else None
    if unit is None:
        return None
    if data[0] & 0xF0 == PROGRAM_STATUS:
        return unit.chart.programs is not None
    if data[0] & 0xF0 != CONTROL_STATUS:
        return False
    readings, numbering = unit.chart.readings, unit.chart.programs
    banks = numbering is not None and numbering.bank_bytes is not BankBytes.NONE
    selects = bool(readings.parameters) and data[1] in SELECTORS | ENTRIES
    return data[1] in readings.plain or selects or (banks and data[1] in (BANK_MSB, BANK_LSB))
