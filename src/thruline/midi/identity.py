"""Asking a unit who it is: the identity request and reply.

Source: MIDI 1.0 Detailed Specification 4.2.1, pages 34, 35 and 40. A reply needs a way back from
the unit's output; and since answering is optional, silence proves nothing.
"""

from dataclasses import dataclass
from typing import Final

from thruline.base.errors import CannotUse
from thruline.midi.message import SystemExclusive, check_number
from thruline.midi.numbers import pair_to_value, value_to_pair
from thruline.midi.specs import PAIR_MAX
from thruline.midi.words import in_hex

NON_REAL_TIME: Final = 0x7E
"""Opens a universal exclusive that need not be obeyed at once."""

REAL_TIME: Final = 0x7F
"""Opens a universal exclusive that is meant for this moment."""

ALL_CALL: Final = 0x7F
"""The device number that every unit answers to."""

NON_COMMERCIAL: Final = 0x7D
"""The maker ID of schools and research; no product may be sold with it."""

_ASKS: Final = bytes((0x06, 0x01))
_ANSWERS: Final = bytes((0x06, 0x02))
_LONG: Final = 3
_REVISION: Final = 4

_REGIONS: Final = ((0x60, "other"), (0x40, "Japanese"), (0x20, "European"), (0x00, "American"))
"""Where the ranges of maker IDs begin: of one-byte IDs, and of the middle byte of long ones."""

_NOT_REGIONAL: Final = {
    bytes((NON_COMMERCIAL,)): "schools and research",
    bytes((NON_REAL_TIME,)): "universal, no maker",
    bytes((REAL_TIME,)): "universal, no maker",
}


@dataclass(frozen=True, slots=True)
class IdentityRequest:
    """Who are you? To one device number of 0 to 126, or to all (127)."""

    device: int = ALL_CALL

    def __post_init__(self) -> None:
        check_number("device", self.device)


@dataclass(frozen=True, slots=True, kw_only=True)
class IdentityReply:
    """Who a unit says it is.

    `maker` is the maker's ID as sent: one byte, or three of which the first is 0. `family` and
    `member` are 14-bit numbers and `revision` four data bytes; what they mean is each maker's own.
    """

    device: int
    maker: bytes
    family: int
    member: int
    revision: bytes

    def __post_init__(self) -> None:
        check_number("device", self.device)
        check_number("family", self.family, high=PAIR_MAX)
        check_number("member", self.member, high=PAIR_MAX)
        if len(self.maker) != _maker_size(self.maker) or not self.maker.isascii():
            raise CannotUse(
                f'"{in_hex(self.maker)}" is not a maker ID: that is one byte of 01 to 7F '
                "hex, or 00 and two more of 00 to 7F"
            )
        if len(self.revision) != _REVISION or not self.revision.isascii():
            raise CannotUse(
                f'"{in_hex(self.revision)}" is not a revision: that is four bytes of 00 to 7F hex'
            )


def request_to_message(request: IdentityRequest) -> SystemExclusive:
    """The question as a message."""
    return SystemExclusive(bytes((NON_REAL_TIME, request.device)) + _ASKS)


def message_to_request(message: SystemExclusive) -> IdentityRequest | None:
    """The question that a message asks; None when it is no identity request."""
    data = message.data
    if len(data) != 4 or data[0] != NON_REAL_TIME or data[2:] != _ASKS:
        return None
    return IdentityRequest(data[1])


def reply_to_message(reply: IdentityReply) -> SystemExclusive:
    """The answer as a message."""
    numbers = bytes((*_fine_first(reply.family), *_fine_first(reply.member)))
    head = bytes((NON_REAL_TIME, reply.device)) + _ANSWERS
    return SystemExclusive(head + reply.maker + numbers + reply.revision)


def message_to_reply(message: SystemExclusive) -> IdentityReply | None:
    """The answer that a message gives; None when it is no whole identity reply."""
    data = message.data
    if data[:1] != bytes((NON_REAL_TIME,)) or data[2:4] != _ANSWERS:
        return None
    size = _maker_size(data[4:])
    rest = data[4 + size :]
    if len(rest) != 4 + _REVISION:
        return None
    return IdentityReply(
        device=data[1],
        maker=data[4 : 4 + size],
        family=pair_to_value(rest[1], rest[0]),
        member=pair_to_value(rest[3], rest[2]),
        revision=rest[4:],
    )


def maker_in_words(maker: bytes) -> str:
    """A maker ID with the region it was given out in: `00 20 55 (European)`."""
    deciding = maker[1] if len(maker) == _LONG else maker[0]
    region = next(region for begin, region in _REGIONS if deciding >= begin)
    return f"{in_hex(maker)} ({_NOT_REGIONAL.get(maker, region)})"


def _maker_size(data: bytes) -> int:
    """Bytes of the maker ID that `data` begins with."""
    return _LONG if data[:1] == b"\x00" else 1


def _fine_first(number: int) -> tuple[int, int]:
    coarse, fine = value_to_pair(number)
    return fine, coarse
