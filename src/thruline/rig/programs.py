"""Program labels and what goes over the wire for them, exact both ways.

A label such as `11B` is a number written with two digits of different kind: a slow one (the bank on
the display) and a fast one (the slot). Its running number is `bank place * slots + slot place`, and
the wire takes that number apart again into a MIDI bank and a program change.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

_LONGEST_NUMBER = 9
"""Digits in a label at most; longer text is no label of any unit."""


class BankBytes(StrEnum):
    """Which bank select messages a unit reads. With one of them a bank is 0 to 127."""

    NONE = "none"
    MSB = "msb"
    LSB = "lsb"
    BOTH = "both"


@dataclass(frozen=True, slots=True, order=True)
class WireProgram:
    """A MIDI bank (0 to 16383) and a program number (0 to 127), as sent."""

    bank: int
    program: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Digit:
    """One part of a label: `count` choices, the first called `first`, padded to `width`."""

    count: int
    first: int | str
    width: int = 1

    def write(self, place: int) -> str:
        """The text of the choice at `place`, counted from 0."""
        if isinstance(self.first, str):
            return chr(ord(self.first) + place)
        return str(self.first + place).zfill(self.width)

    def read(self, text: str) -> int | None:
        """The place of a text, or None; letters in either case, padding may be left out."""
        if isinstance(self.first, str):
            same = text.upper() if self.first.isupper() else text.lower()
            place = ord(same) - ord(self.first) if len(same) == 1 else -1
        else:
            plain = text.isascii() and text.isdigit() and len(text) <= _LONGEST_NUMBER
            place = int(text) - self.first if plain else -1
        return place if 0 <= place < self.count else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Numbering:
    """A unit's rule for labels: `names` lists them all, or `slots` (and `banks`) make them."""

    slots: Digit | None = None
    banks: Digit | None = None
    names: tuple[str, ...] = ()
    slot_first: bool = False
    separator: str = ""
    first_wire: int = 0
    per_bank: int = 128
    first_bank: int = 0
    bank_bytes: BankBytes = BankBytes.NONE
    bank_cleared: bool = False
    special: tuple[tuple[str, WireProgram], ...] = ()

    @property
    def count(self) -> int:
        """How many labels the numbering itself makes, special programs aside."""
        if self.names or self.slots is None:
            return len(self.names)
        return self.slots.count * (self.banks.count if self.banks else 1)

    @property
    def bank_at_rest(self) -> int | None:
        """What a bank register holds when no select has come since the last program change.

        0 where a program change clears it; otherwise whatever came before, so it is not known.
        """
        return 0 if self.bank_cleared else None


def label_at(numbering: Numbering, place: int) -> str:
    """The label with the running number `place` (from 0 to `count - 1`)."""
    if numbering.names or numbering.slots is None:
        return numbering.names[place]
    if numbering.banks is None:
        return numbering.slots.write(place)
    bank, slot = divmod(place, numbering.slots.count)
    parts = [numbering.banks.write(bank), numbering.slots.write(slot)]
    if numbering.slot_first:
        parts.reverse()
    return numbering.separator.join(parts)


def labels(numbering: Numbering) -> Iterator[str]:
    """Every label in order, then the special ones."""
    for place in range(numbering.count):
        yield label_at(numbering, place)
    for label, _ in numbering.special:
        yield label


def place_of(numbering: Numbering, label: str) -> int | None:
    """The running number of a label as a person may write it; None when there is none.

    Letters may be of either case, and noughts in front may be left out where that still leaves
    only one reading.
    """
    text = label.strip()
    if numbering.names or numbering.slots is None:
        low = [name.lower() for name in numbering.names]
        return low.index(text.lower()) if text.lower() in low else None
    if numbering.banks is None:
        return numbering.slots.read(text)
    readings = set(_readings(numbering, text))
    exact = {place for place in readings if label_at(numbering, place).lower() == text.lower()}
    best = exact or readings
    return min(best) if exact or len(best) == 1 else None


def _readings(numbering: Numbering, text: str) -> Iterator[int]:
    """The running number for each way to cut a label in two that makes sense."""
    banks, slots = numbering.banks, numbering.slots
    if banks is None or slots is None:
        return
    for cut in range(1, len(text)):
        head, tail = text[:cut], text[cut:]
        if not tail.startswith(numbering.separator):
            continue
        tail = tail.removeprefix(numbering.separator)
        if numbering.slot_first:
            head, tail = tail, head
        bank, slot = banks.read(head), slots.read(tail)
        if bank is not None and slot is not None:
            yield bank * slots.count + slot


@lru_cache(maxsize=1 << 15)  # a rig is resolved again after each edit, and its labels stay
def label_to_wire(numbering: Numbering, label: str) -> WireProgram | None:
    """What to send for a label; None when the unit has no such label."""
    for name, wire in numbering.special:
        if name.lower() == label.strip().lower():
            return wire
    place = place_of(numbering, label)
    if place is None:
        return None
    bank, program = divmod(place, numbering.per_bank)
    return WireProgram(numbering.first_bank + bank, numbering.first_wire + program)


def wire_to_label(numbering: Numbering, wire: WireProgram) -> str | None:
    """What the display shows after this bank and program; None when the unit has no such place."""
    for name, special in numbering.special:
        if special == wire:
            return name
    place = _place_at(numbering, wire)
    return None if place is None else label_at(numbering, place)


def bank_in(numbering: Numbering, coarse: int | None, fine: int | None) -> int | None:
    """The bank that two registers select, as on the wire; None where one that counts is unknown."""
    match numbering.bank_bytes:
        case BankBytes.NONE:
            return numbering.first_bank
        case BankBytes.MSB:
            return coarse
        case BankBytes.LSB:
            return fine
        case BankBytes.BOTH:
            return None if coarse is None or fine is None else coarse * 128 + fine


def has_program(numbering: Numbering, wire: WireProgram) -> bool:
    """Whether the unit has a place for this bank and program."""
    named = any(special == wire for _, special in numbering.special)
    return named or _place_at(numbering, wire) is not None


def _place_at(numbering: Numbering, wire: WireProgram) -> int | None:
    """The running number of a bank and program; None beyond the last."""
    offset = wire.program - numbering.first_wire
    bank = wire.bank - numbering.first_bank
    place = bank * numbering.per_bank + offset
    within = 0 <= offset < numbering.per_bank and bank >= 0 and place < numbering.count
    return place if within else None
