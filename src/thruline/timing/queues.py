"""One output as arithmetic: a first-in first-out server of bytes, each 320 us long.

A message that is ready at a[i] and takes s[i] leaves at

    d[i] = max(a[i], d[i-1]) + s[i]

With S[i] = s[0] + ... + s[i] that is a running sum and a running maximum (a max-plus prefix scan):

    lead[i] = max over j <= i of (a[j] - S[j-1])
    d[i]    = lead[i] + S[i]

Nothing here asks that arrivals rise: a message that comes early but stands behind another in the
queue waits for it all the same.
"""

from collections.abc import Iterator, Sequence

import numpy as np

from thruline.base.measures import BYTE_US
from thruline.timing.statuses import FIRST_SYSTEM
from thruline.timing.traffic import Numbers, Positions, StatusBytes, Truths

BLOCK = 16_000
"""Messages worked on at a time: a few columns of 125 KiB stay in the processor's own memory, and
asking the system for fresh memory would cost more than all the arithmetic."""

_BYTE_US = np.array(BYTE_US)
"""An array already: numpy need not make one of the number at every call."""

NEVER_US = -(1 << 62)
"""Earlier than any time: when the last message left before there was one."""


def blocks(count: int) -> list[slice]:
    """A long column cut into blocks."""
    if 0 < count <= BLOCK:
        return [slice(0, count)]
    return [slice(begin, min(begin + BLOCK, count)) for begin in range(0, count, BLOCK)]


def departures(ready_us: Numbers, service_us: Numbers) -> Numbers:
    """When each message has left, given when it was ready and how long it takes on the wire.

    Works along the last axis.
    """
    until = np.add.accumulate(service_us, axis=-1)
    leaves = ready_us + service_us
    leaves -= until
    np.maximum.accumulate(leaves, axis=-1, out=leaves)
    leaves += until
    return leaves


def services(length: Numbers, left_out: Truths | None) -> Iterator[tuple[slice, Numbers, Numbers]]:
    """Block by block: each message's time on the wire, and that of all messages up to it.

    `left_out` says which messages go without their status byte. Both columns are written anew for
    the next block.
    """
    longest = min(BLOCK, length.size)
    spare, sums = np.empty(longest, np.int64), np.empty(longest, np.int64)
    total = 0
    for part in blocks(length.size):
        size = part.stop - part.start
        service, until = spare[:size], sums[:size]
        if left_out is None:
            np.multiply(length[part], _BYTE_US, out=service)
        else:
            np.subtract(length[part], left_out[part], out=service)
            np.multiply(service, _BYTE_US, out=service)
        np.add.accumulate(service, out=until)
        if total:
            until += total
        total = until[-1]
        yield part, service, until


def departures_of(ready_us: Numbers, length: Numbers, left_out: Truths | None) -> Numbers:
    """`departures` of one long column of messages, given by their bytes."""
    leaves = np.empty(ready_us.size, np.int64)
    lead = NEVER_US
    for part, service, until in services(length, left_out):
        column = np.add(ready_us[part], service, out=leaves[part])
        column -= until
        column[0] = max(lead, column[0])
        np.maximum.accumulate(column, out=column)
        lead = column[-1]
        column += until
    return leaves


def repeated_status(status: StatusBytes) -> Truths:
    """Which messages an output with running status sends without their status byte.

    Those whose status is that of the message before. System messages never are, so they end the
    running status by standing in between. Leave real-time messages out: they do not touch it. Works
    along the last axis.
    """
    same = np.zeros(status.shape, np.bool_)
    np.equal(status[..., 1:], status[..., :-1], out=same[..., 1:])
    same &= status < FIRST_SYSTEM
    return same


def merge_order(streams: Sequence[Numbers]) -> Positions:
    """Positions in the joined streams, by time; of one moment the earlier stream goes first.

    Each stream never falls, and its own entries keep their order.
    """
    return np.argsort(np.concatenate(streams), kind="stable")


def slots(plain_us: Numbers, urgent_us: Numbers) -> tuple[Numbers, Numbers]:
    """When plain and urgent bytes have left an output that lets urgent ones go first.

    Takes the times at which bytes are ready, in their order within each kind (plain ones may wait
    for the one before them, so their times need not rise). All bytes last 320 us, so which moments
    the wire is in use does not depend on whose byte it carries: the slots are those of one
    queue of all bytes. Urgent byte j takes the first slot that begins when it is ready or later and
    that no earlier urgent byte has; plain bytes take what is left, in their order.
    """
    plain_us = np.maximum.accumulate(plain_us)
    ready = np.concatenate([plain_us, urgent_us])
    ready.sort(kind="stable")
    end = departures(ready, np.full(ready.size, BYTE_US, np.int64))
    count = np.arange(urgent_us.size)
    taken = np.searchsorted(end, urgent_us + BYTE_US)
    taken -= count
    np.maximum.accumulate(taken, out=taken)
    taken += count
    left = np.ones(end.size, np.bool_)
    left[taken] = False
    return end[left], end[taken]


def last_to_have_left(length: Numbers, room_bytes: int) -> Numbers:
    """Which message must have left when each comes, so that it finds room with the others; or -1.

    A message holds all its bytes until its last one has left. This depends on lengths and room
    alone, so it serves every output that carries these messages.
    """
    held = np.add.accumulate(length)
    return np.searchsorted(held, held - room_bytes) - (held <= room_bytes)


def held_at_coming(from_us: Numbers, until_us: Numbers, amount: Numbers) -> Numbers:
    """Bytes held just after each coming, of things that stay from a time until another.

    What leaves at a moment makes room for what comes at that moment; what comes at one moment is
    there together. Answers in the order of the things given.
    """
    comings, leavings = np.argsort(from_us, kind="stable"), np.argsort(until_us, kind="stable")
    come = np.concatenate([[0], np.add.accumulate(amount[comings])])
    gone = np.concatenate([[0], np.add.accumulate(amount[leavings])])
    has_come = np.searchsorted(from_us[comings], from_us, side="right")
    has_gone = np.searchsorted(until_us[leavings], from_us, side="right")
    held: Numbers = come[has_come] - gone[has_gone]
    return held
