"""A sending: the messages of one press and the pauses between them."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from thruline.base.measures import BYTE_US
from thruline.timing.statuses import FIRST_REAL_TIME, FIRST_SYSTEM


class Purpose(StrEnum):
    """What a message is there for."""

    BANK = "bank"
    PROGRAM = "program"
    CONTROL = "control"
    OTHER = "other"


class Item(NamedTuple):
    """One complete message, and the pause before it (from the end of the message before).

    `unit` is the unit it is meant for and `part` the control; None when nobody said so.
    """

    data: bytes
    purpose: Purpose
    unit: str | None = None
    part: str | None = None
    pause_us: int = 0


@dataclass(frozen=True, slots=True)
class Sending:
    """What one press puts on the wire."""

    items: tuple[Item, ...]


def ready_times(items: Iterable[Item], *, gap_us: int, running_status: bool) -> list[int]:
    """When the sender hands each message to its output, us after the press.

    A sender works through its list: it takes `gap_us` for each message, waits out a pause from the
    moment the message before has left, and leaves out a repeated status if it uses running status
    (which system messages end, and real time does not touch: MIDI 1.0).
    """
    moment, status = 0, -1
    times = []
    for item in items:
        moment += item.pause_us + gap_us
        times.append(moment)
        length = len(item.data)
        first = item.data[0]
        if running_status and first == status:
            length -= 1
        if first < FIRST_REAL_TIME:
            status = first if first < FIRST_SYSTEM else -1
        moment += BYTE_US * length
    return times
