"""Programs and controls of a chart in the words that its sheets share."""

from thruline.compose.goals import bank_controls, control_bytes
from thruline.midi.numbers import FINE_OFFSET
from thruline.papers.chart_traffic import number_ranges
from thruline.rig.programs import (
    BankBytes,
    Numbering,
    WireProgram,
    label_at,
    label_to_wire,
    labels,
)
from thruline.rig.values import Control, ControlKind, ControlMessage, shown

_MOST_ZONES = 6
"""More labelled choices than these are only counted."""


def programs_in_words(numbering: Numbering) -> str:
    """What the display shows, and where it lies: `1A to 25D, BYP; 101 programs in bank 0`."""
    count = numbering.count
    ends = dict.fromkeys(label_at(numbering, place) for place in (0, count - 1) if count)
    special = [label for label, _ in numbering.special]
    told = f"{', '.join([' to '.join(ends), *special])}; {count + len(special)} programs"
    if numbering.bank_bytes is BankBytes.NONE:
        return told
    banks = {label_to_wire(numbering, label) for label in labels(numbering)}
    numbers = {wire.bank for wire in banks if wire is not None}
    return f"{told} in {'banks' if len(numbers) > 1 else 'bank'} {number_ranges(numbers)}"


def example_labels(numbering: Numbering) -> tuple[str, ...]:
    """The first label, one in the middle, the last, and the special ones."""
    count = numbering.count
    places = sorted({0, count // 2, count - 1}) if count else []
    return (
        *(label_at(numbering, place) for place in places),
        *(label for label, _ in numbering.special),
    )


def wire_numbers(numbering: Numbering) -> str:
    """The program numbers on the wire that lead to a program: `0-99`."""
    wires = (label_to_wire(numbering, label) for label in labels(numbering))
    return number_ranges(wire.program for wire in wires if wire is not None)


def program_bytes(numbering: Numbering, wire: WireProgram, channel: int) -> str:
    """What goes over the wire for a program on a channel of 1 to 16: `B2 00 00  C2 13`."""
    control, program = 0xB0 | channel - 1, 0xC0 | channel - 1
    heads = bank_controls(numbering.bank_bytes, wire.bank)
    parts = [bytes((control, *head)) for head in heads] + [bytes((program, wire.program))]
    return "  ".join(part.hex(" ").upper() for part in parts)


def bank_numbers(numbering: Numbering) -> tuple[int, ...]:
    """The control numbers that the unit reads as bank select."""
    return tuple(number for number, _ in bank_controls(numbering.bank_bytes, 0))


def bank_reading(reads: BankBytes) -> str:
    """Which bank bytes the unit reads, in words."""
    match reads:
        case BankBytes.NONE:
            return "reads no bank select"
        case BankBytes.MSB:
            return "reads bank select 0 only"
        case BankBytes.LSB:
            return "reads bank select 32 only"
        case BankBytes.BOTH:
            return "reads bank select 0 and 32"


def carried_by(control: Control) -> str:
    """Which numbers carry the control: `14`, `14 and 46`, `NRPN 1 5`."""
    match control.message:
        case ControlMessage.CC:
            return str(control.number)
        case ControlMessage.CC14:
            return f"{control.number} and {control.number + FINE_OFFSET}"
        case _:
            coarse, fine = divmod(control.number, 128)
            return f"{control.message.upper()} {coarse} {fine}"


def numbers_of(control: Control) -> tuple[int, ...]:
    """Every control number that setting the control takes."""
    return tuple(dict.fromkeys(number for number, _ in control_bytes(control, control.low)))


def values_in_words(control: Control) -> str:
    """Which wire values mean what."""
    match control.kind:
        case ControlKind.RANGE:
            return _range(control)
        case ControlKind.SWITCH:
            return f"{control.low}-63 off, 64-{control.high} on"
        case ControlKind.STEPS:
            return _zones(control)
        case ControlKind.MOMENTARY:
            return f"acts while pressed ({control.high}), nothing stays"
        case ControlKind.TOGGLE_ANY:
            return "any value flips it"


def _range(control: Control) -> str:
    low, high = control.low, control.high
    if control.zones:
        return _zones(control)
    if control.scale is None:
        return f"{low}-{high}"
    places = (low, (low + high + 1) // 2, high)
    return ", ".join(f"{place} = {shown(control, place)}" for place in places)


def _zones(control: Control) -> str:
    told = [f"{zone.label} {zone.low}-{zone.high}" for zone in control.zones]
    if len(told) > _MOST_ZONES:
        left = len(told) - _MOST_ZONES + 1
        told = [*told[: _MOST_ZONES - 2], f"{left} more", told[-1]]
    return ", ".join(told)
