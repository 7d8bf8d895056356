"""What a buffer that is too small loses.

The rule. Messages are taken in the order in which they queue. A message is let in when it, and all
that was let in before it, always find room (`room` says what takes room and how long); if not,
the whole message is lost at the moment it came, and neither takes the wire nor touches running
status. Real-time messages that go first are never lost.

For messages that come whole this says: lost is what does not fit when it comes. What is lost
depends on all that was lost before, so it is found message by message.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from thruline.base.measures import BYTE_US
from thruline.timing.arrivals import Arrivals
from thruline.timing.network import Output
from thruline.timing.statuses import FIRST_REAL_TIME, FIRST_SYSTEM
from thruline.timing.traffic import Truths


class Stay(NamedTuple):
    """Something that takes room from a time until another."""

    begin_us: int
    until_us: int
    size: int


@dataclass(slots=True)
class _Wire:
    """An output while its messages are tried one after the other."""

    urgent_us: list[int]
    """When the real-time bytes that go first are ready."""
    free_us: int
    """When the last byte so far has left."""
    next_urgent: int = 0
    status: int = -1
    """Of the last message that was let in, real time aside."""
    queued_us: int = 0
    """When that message was queued."""


def let_in(output: Output, coming: Arrivals, room_bytes: int) -> Truths:
    """Which of the arrivals are let in, by the rule of this module."""
    order = coming.order
    urgent = (order.status >= FIRST_REAL_TIME) & output.real_time_first
    ready, statuses = coming.every_byte_ready_us.tolist(), order.status.tolist()
    bounds = [0, *np.add.accumulate(order.length).tolist()]
    whole = [True] * urgent.size if coming.whole is None else coming.whole.tolist()
    wire = _Wire(coming.ready_us[urgent].tolist(), min(ready, default=0))
    held: list[Stay] = []
    allowed = np.ones(urgent.size, np.bool_)
    for place in np.flatnonzero(~urgent).tolist():
        bytes_us = ready[bounds[place] : bounds[place + 1]]
        held = [stay for stay in held if stay.until_us > bytes_us[0]]
        before = wire.free_us, wire.next_urgent
        skip = _leaves_out(output, wire, status=statuses[place], queued_us=bytes_us[0])
        new = [Stay(us, _send(wire, us), 1) for us in bytes_us[skip:]]
        if whole[place]:
            new = [Stay(bytes_us[0], new[-1].until_us, len(bytes_us))]
        if always_fit(held + new, room_bytes):
            held += new
            if statuses[place] < FIRST_REAL_TIME:
                wire.status, wire.queued_us = statuses[place], bytes_us[0]
        else:
            allowed[place] = False
            wire.free_us, wire.next_urgent = before
    return allowed


def _leaves_out(output: Output, wire: _Wire, *, status: int, queued_us: int) -> bool:
    """Whether running status leaves out this status byte."""
    if not output.running_status or status != wire.status or status >= FIRST_SYSTEM:
        return False
    return output.refresh_us is None or queued_us - wire.queued_us <= output.refresh_us


def _send(wire: _Wire, ready_us: int) -> int:
    """Put one byte on the wire, after the real-time bytes that come before it; when it has left."""
    starts = max(wire.free_us, ready_us)
    while wire.next_urgent < len(wire.urgent_us) and wire.urgent_us[wire.next_urgent] <= starts:
        wire.free_us = max(wire.free_us, wire.urgent_us[wire.next_urgent]) + BYTE_US
        wire.next_urgent += 1
        starts = max(wire.free_us, ready_us)
    wire.free_us = starts + BYTE_US
    return wire.free_us


def always_fit(stays: list[Stay], room_bytes: int) -> bool:
    """Whether these things never hold more than the room at one moment."""
    if sum(stay.size for stay in stays) <= room_bytes:
        return True
    changes = [(stay.begin_us, stay.size) for stay in stays]
    changes += [(stay.until_us, -stay.size) for stay in stays]
    held = 0
    for _, change in sorted(changes):
        held += change
        if held > room_bytes:
            return False
    return True
