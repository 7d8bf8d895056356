"""What an output holds back: kinds of traffic and channels."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from thruline.rig.chart import Traffic

_CHANNEL_KINDS: Mapping[int, Traffic] = MappingProxyType(
    {
        0x80: Traffic.NOTE,
        0x90: Traffic.NOTE,
        0xA0: Traffic.NOTE,
        0xB0: Traffic.CONTROL,
        0xC0: Traffic.PROGRAM,
    }
)
"""Kinds by the upper half of a status byte. Channel pressure and pitch bend are of no kind: only a
filter of channels holds them back."""

_SYSTEM_KINDS: Mapping[int, frozenset[Traffic]] = MappingProxyType(
    {
        0xF0: frozenset({Traffic.SYSTEM_EXCLUSIVE}),
        0xF7: frozenset({Traffic.SYSTEM_EXCLUSIVE}),
        0xF8: frozenset({Traffic.CLOCK, Traffic.REAL_TIME}),
    }
    | dict.fromkeys(range(0xF9, 0x100), frozenset({Traffic.REAL_TIME}))
)

SAMPLES: Mapping[Traffic, tuple[int, ...]] = MappingProxyType(
    {
        Traffic.PROGRAM: tuple(range(0xC0, 0xD0)),
        Traffic.CONTROL: tuple(range(0xB0, 0xC0)),
        Traffic.NOTE: tuple(range(0x90, 0xA0)),
        Traffic.CLOCK: (0xF8,),
        Traffic.REAL_TIME: (0xFA,),
        Traffic.SYSTEM_EXCLUSIVE: (0xF0,),
    }
)
"""Status bytes that stand for each kind of traffic: one a channel, where it has channels."""


def kinds_of(status: int) -> frozenset[Traffic]:
    """The kinds of traffic that a message with this status byte is (MIDI 1.0, tables of statuses).

    Timing clock is real time as well; system common messages are of no kind and pass every filter.
    """
    if status < 0xF0:
        kind = _CHANNEL_KINDS.get(status & 0xF0)
        return frozenset() if kind is None else frozenset({kind})
    return _SYSTEM_KINDS.get(status, frozenset())


def channel_of(status: int) -> int | None:
    """The channel that a status byte addresses, 1 to 16; None for a system message."""
    return (status & 0x0F) + 1 if 0x80 <= status < 0xF0 else None


@dataclass(frozen=True, slots=True)
class Filter:
    """Kinds and channels that do not get through.

    `Traffic.OWN_CHANNEL` among the kinds means that some unit's own channel is held back and nobody
    knows which it is.
    """

    kinds: frozenset[Traffic] = frozenset()
    channels: frozenset[int] = frozenset()

    def stops(self, status: int) -> bool:
        """Whether a message with this status byte is among them, as far as can be told."""
        return not self.kinds.isdisjoint(kinds_of(status)) or channel_of(status) in self.channels

    def may_stop(self, status: int) -> bool:
        """The same, with every channel taken for an own channel that nobody knows."""
        unknown = Traffic.OWN_CHANNEL in self.kinds and channel_of(status) is not None
        return unknown or self.stops(status)

    def with_(self, other: "Filter") -> "Filter":
        """What does not get through both, one after the other."""
        if not (other.kinds or other.channels):
            return self
        return Filter(self.kinds | other.kinds, self.channels | other.channels)


NOTHING = Filter()
"""Holds nothing back."""
