"""System exclusive dumps: whole or not, and which checksum they carry."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import reduce
from operator import xor
from types import MappingProxyType

from thruline.midi.identity import NON_REAL_TIME, REAL_TIME
from thruline.midi.specs import END_OF_EXCLUSIVE as END
from thruline.midi.specs import EXCLUSIVE, FIRST_STATUS

LONGEST_HEAD = 12
"""Bytes after the first that a checksum may leave out: maker, model, command, address."""
_KIND_AT = 3
"""Where a universal exclusive says what it is: behind F0, 7E or 7F, and the device number."""
LEAST_COVERED = 4
"""Fewer bytes under a checksum fit by chance too often."""


class Checksum(StrEnum):
    """How makers guard a dump; the last byte before the end makes it come out right."""

    TWOS = "two's complement of the sum"
    """Sum and checksum together are a multiple of 128."""
    SUM = "sum"
    """The sum, modulo 128."""
    XOR = "exclusive or"
    """All bytes put together by exclusive or."""
    NONE = "none"
    """No checksum is known for it."""


@dataclass(frozen=True, slots=True)
class Guarding:
    """A kind of checksum, and the first byte that it covers (0 is F0)."""

    kind: Checksum
    first: int = 0


MEMORY: Mapping[int, str] = MappingProxyType(
    {
        0x01: "sample dump, head",
        0x02: "sample dump, data",
        0x05: "sample dump, additions",
        0x07: "file dump",
        0x08: "tuning",
    }
)
"""What universal exclusives that need not be obeyed at once hold of a unit's memory, by the first
number after the device. Source: MIDI 1.0 Detailed Specification 4.2.1, table VIIa."""


def holds_memory(message: bytes) -> bool:
    """Whether an exclusive may be of a unit's memory: a maker's own, or a universal dump.

    Who a unit is, and whatever is meant for one moment, is not.
    """
    kind = message[1:2]
    if kind == bytes((NON_REAL_TIME,)):
        return len(message) > _KIND_AT and message[_KIND_AT] in MEMORY
    return kind != bytes((REAL_TIME,))


def is_whole(message: bytes) -> bool:
    """Whether it begins and ends as an exclusive, with nothing but data between."""
    return (
        len(message) > 2
        and message[0] == EXCLUSIVE.status
        and message[-1] == END.status
        and all(byte < FIRST_STATUS for byte in message[1:-1])
    )


def checksum_of(kind: Checksum, covered: bytes) -> int:
    """The checksum of some bytes."""
    match kind:
        case Checksum.TWOS:
            return -sum(covered) % 128
        case Checksum.SUM:
            return sum(covered) % 128
        case Checksum.XOR:
            return reduce(xor, covered, 0)
        case Checksum.NONE:
            return 0


def verifies(message: bytes, guarding: Guarding) -> bool:
    """Whether a whole message carries the checksum that it should."""
    if guarding.kind is Checksum.NONE:
        return is_whole(message)
    covered = message[guarding.first : -2]
    return (
        is_whole(message) and bool(covered) and message[-2] == checksum_of(guarding.kind, covered)
    )


def guarding_of(messages: Sequence[bytes]) -> Guarding:
    """The checksum that all of several messages carry, by trying; NONE when there is none.

    One message alone may fit by chance (one in 128), so it takes two that differ to say so.
    """
    if len(set(messages)) < 2:
        return Guarding(Checksum.NONE)
    for kind in (Checksum.TWOS, Checksum.XOR, Checksum.SUM):
        for first in range(1, LONGEST_HEAD + 1):
            guarding = Guarding(kind, first)
            long_enough = all(len(one) - 2 - first >= LEAST_COVERED for one in messages)
            if long_enough and all(verifies(one, guarding) for one in messages):
                return guarding
    return Guarding(Checksum.NONE)


def troubles(messages: Iterable[bytes], guarding: Guarding) -> list[str]:
    """What is wrong with a dump, in sentences; empty when it may be sent back."""
    found = []
    count = 0
    for count, message in enumerate(messages, 1):
        if not is_whole(message):
            found.append(f"message {count} is not whole: it does not run from F0 to F7")
        elif not verifies(message, guarding):
            found.append(f"message {count} does not verify: its checksum is not right")
    return found if count else ["there is nothing in it"]
