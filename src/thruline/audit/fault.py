"""What may be wrong between what was meant and what was sent: a closed vocabulary.

How often each family is the cause is an estimate from the bench, not a measurement.
"""

from enum import StrEnum
from typing import NamedTuple


class Family(StrEnum):
    """Kinds of mistake, in the order in which they act on a message."""

    STALE = "stale"
    """One changed preset was not written to the controller."""
    STALE_ALL = "stale-all"
    """No change since the earlier version was written."""
    SLOTS = "slots"
    """From one preset on, everything stands one place later or earlier."""
    NUMBERING = "numbering"
    """Program numbers for a unit are one too high or too low."""
    NUMBER = "control-number"
    """A control of a unit is addressed by another number."""
    REVERSED = "reversed"
    """Heel and toe of a sweep's move are exchanged."""
    CHANNEL = "channel"
    """A unit is addressed on another channel."""
    SWAPPED = "channels-swapped"
    """The channels of two units are exchanged."""
    OMITTED = "omitted"
    """Program or control changes for a unit are not sent at all."""
    FILTER = "filter"
    """The controller sends no program or no control changes whatsoever."""
    SHUT = "shut"
    """An output on the way passes nothing on, or not this kind of message."""
    SWALLOWED = "swallowed"
    """A unit on the way does not pass on what is on its own channel."""


ORDER = {family: place for place, family in enumerate(Family)}

LIKELIHOOD = {
    Family.STALE: 0.13,
    Family.STALE_ALL: 0.05,
    Family.SLOTS: 0.06,
    Family.NUMBERING: 0.18,
    Family.NUMBER: 0.09,
    Family.REVERSED: 0.06,
    Family.CHANNEL: 0.12,
    Family.SWAPPED: 0.07,
    Family.OMITTED: 0.05,
    Family.FILTER: 0.03,
    Family.SHUT: 0.12,
    Family.SWALLOWED: 0.04,
}

ALL, PROGRAMS, CONTROLS = 0, 1, 2
"""What an output or a controller does not let through."""
WHAT = ("anything", "program changes", "control changes")


class Fault(NamedTuple):
    """One mistake: its family and what it is about, by places in `Meant`.

    | family | first | second | third |
    |---|---|---|---|
    | stale | step | | |
    | slots | step from which | +1 later, -1 earlier | |
    | numbering | unit | +1 or -1 | |
    | control-number | unit | number meant | number sent |
    | reversed | unit | control number | |
    | channel | unit | channel, 0 to 15 | |
    | channels-swapped | unit | unit | |
    | omitted | unit | what | |
    | filter | what | | |
    | shut | line | what | |
    | swallowed | line | | |
    """

    family: Family
    first: int = 0
    second: int = 0
    third: int = 0


def in_order(faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """Faults in the order in which they act, however they were found."""
    return tuple(sorted(faults, key=place_of))


Place = tuple[int, int, int, int]


def place_of(fault: Fault) -> Place:
    """Where a mistake stands among all there could be."""
    return ORDER[fault.family], fault.first, fault.second, fault.third
