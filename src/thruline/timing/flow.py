"""What goes over a line: messages in their order, and when."""

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np

from thruline.base.measures import BYTE_US
from thruline.timing import queues
from thruline.timing.statuses import FIRST_REAL_TIME, Statuses
from thruline.timing.traffic import Numbers, Positions, Sent, StatusBytes, Truths

STATUS_BYTES = 256


@dataclass(frozen=True, eq=False)
class Order:
    """Messages in one order. Lines that carry the same messages share it, with what is derived.

    (Without slots: what is derived is worked out once, on demand, and kept.)
    """

    sent: Sent
    which: Positions | slice
    """Positions in all that was sent."""
    length: Numbers
    """Bytes of each message with its status byte."""
    status: StatusBytes
    """Status byte of each message."""
    _last_to_have_left: dict[int, Numbers] = field(default_factory=dict)

    @property
    def ident(self) -> Numbers:
        """What the caller calls each message."""
        return self.positions if self.sent.ident is None else self.sent.ident[self.which]

    @cached_property
    def has_real_time(self) -> bool:
        """Whether any of them is a real-time message."""
        return self.sent.has_real_time and bool((self.status >= FIRST_REAL_TIME).any())

    @cached_property
    def longest(self) -> int:
        """Bytes of the longest message."""
        return int(self.length.max(initial=0))

    @cached_property
    def present(self) -> Statuses:
        """The status bytes that occur."""
        seen = np.zeros(STATUS_BYTES, np.bool_)
        seen[self.status] = True
        return frozenset(np.flatnonzero(seen).tolist())

    @property
    def own(self) -> Positions | slice:
        """Where messages other than real time stand."""
        return np.flatnonzero(self.status < FIRST_REAL_TIME) if self.has_real_time else slice(None)

    @cached_property
    def repeated(self) -> Truths:
        """Which messages running status sends without their status byte."""
        own = self.own
        same = queues.repeated_status(self.status[own])
        if self.sent.sending is not None:
            sending = self.sent.sending[self.which][own]
            same[1:] &= sending[1:] == sending[:-1]
        if isinstance(own, slice):
            return same
        everywhere = np.zeros(self.status.shape, np.bool_)
        everywhere[own] = same
        return everywhere

    def last_to_have_left(self, room_bytes: int) -> Numbers:
        """`queues.last_to_have_left` for these messages."""
        if room_bytes not in self._last_to_have_left:
            need = queues.last_to_have_left(self.length, room_bytes)
            self._last_to_have_left[room_bytes] = need
        return self._last_to_have_left[room_bytes]

    @property
    def positions(self) -> Positions:
        """Positions in all that was sent, written out."""
        if isinstance(self.which, slice):
            return np.arange(self.which.start, self.which.stop)
        return self.which

    def only(self, chosen: Positions | Truths) -> "Order":
        """These of the messages, by position or by truth."""
        return order_of(self.sent, self.positions[chosen])


def order_of(sent: Sent, which: Positions | slice) -> Order:
    """These of all that was sent, in this order."""
    return Order(sent, which, sent.length[which], sent.status[which])


@dataclass(frozen=True, slots=True, eq=False)
class Lost:
    """Messages for which a full buffer had no room, in the order in which they came."""

    ident: Numbers
    status: StatusBytes
    at_us: Numbers
    """When the message (of a byte-wise input: its first byte) came."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Flow:
    """The messages on one line, in the order in which their last bytes end.

    Columns of n entries. Without real-time messages this is also the order of their first bytes.
    """

    order: Order
    left_out: Truths | None
    """Whose status byte running status left out; None when nobody's."""
    end_us: Numbers
    """When the last byte has ended."""
    byte_end_us: Numbers | None = None
    """When each byte has ended, message after message; None when no message has a gap inside."""
    came_us: Numbers | None = None
    """When each message came to this output, but for `latency_us`; None on an electrical copy."""
    latency_us: int = 0
    counted_most_held: int | None = None
    """`most_held` where it was counted byte by byte; None where it follows from the messages."""
    lost: Lost | None = None
    """What a full buffer lost here; None when nothing was."""

    @property
    def ident(self) -> Numbers:
        """What the caller calls each message."""
        return self.order.ident

    @property
    def status(self) -> StatusBytes:
        """Status byte of each message."""
        return self.order.status

    @property
    def length(self) -> Numbers:
        """Bytes of each message with its status byte, sent or not."""
        return self.order.length

    @property
    def sent_bytes(self) -> Numbers:
        """Bytes of each message on the wire."""
        return self.length if self.left_out is None else self.length - self.left_out

    @property
    def start_us(self) -> Numbers:
        """When the first byte begins."""
        if self.byte_end_us is None:
            return self.end_us - self.sent_bytes * BYTE_US
        sent_bytes = self.sent_bytes
        return self.byte_end_us[np.add.accumulate(sent_bytes) - sent_bytes] - BYTE_US

    @property
    def queued_us(self) -> Numbers | None:
        """When each message (byte by byte: its first byte) was queued; None on a copy."""
        return None if self.came_us is None else self.came_us + self.latency_us

    @property
    def every_byte_end_us(self) -> Numbers:
        """When each byte has ended, message after message."""
        if self.byte_end_us is not None:
            return self.byte_end_us
        sent_bytes = self.sent_bytes
        return np.repeat(self.start_us, sent_bytes) + BYTE_US * (within(sent_bytes) + 1)

    @property
    def most_held(self) -> int:
        """Most bytes that ever were queued or being sent here; 0 on an electrical copy.

        A message that came whole counts with all its bytes until the last has left; of a message
        that came byte by byte each byte counts until it has left. Real-time bytes that go first
        wait beside the queue and do not count.
        """
        if self.counted_most_held is not None:
            return self.counted_most_held
        queued = self.queued_us
        if queued is None:
            return 0
        come = np.add.accumulate(self.length)
        gone = np.concatenate([[0], come])[np.searchsorted(self.end_us, queued, side="right")]
        return int((come - gone).max(initial=0))


def within(counts: Numbers) -> Numbers:
    """0, 1, ... counts[0]-1, 0, 1, ... counts[1]-1, and so on: each byte's place in its message."""
    starts = np.add.accumulate(counts) - counts
    return np.arange(int(counts.sum())) - np.repeat(starts, counts)
