"""Many sendings as tables of whole numbers, a row each: what is played in one go."""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from thruline.base.measures import BYTE_US
from thruline.timing.sending import Item, Sending, ready_times
from thruline.timing.statuses import FIRST_REAL_TIME, FIRST_SYSTEM
from thruline.timing.traffic import Numbers, Truths

PADDING = 0x80
"""The status byte where there is no message."""


class Tables(NamedTuple):
    """B sendings by M messages; length 0 where a sending has no more."""

    ready_us: Numbers
    """When the sender hands each message over, from its own press."""
    length: Numbers
    status: Numbers
    code: Numbers
    """Length and first three bytes as one number: another for every other channel message."""


def tables_of(sendings: Sequence[Sending], *, gap_us: int, running_status: bool) -> Tables:
    """The tables of some sendings; for the times see `ready_times`."""
    counts = np.array([len(sending.items) for sending in sendings], np.int64)
    there = np.arange(max(1, counts.max(initial=0))) < counts[:, None]
    items = [item for sending in sendings for item in sending.items]
    length, status, code = _bytes_of(items)
    lengths, statuses = _table(there, length), _table(there, status, rest=PADDING)
    if status.max(initial=0) >= FIRST_REAL_TIME:
        ready = _table(there, _one_by_one(sendings, gap_us, running_status))
    else:
        pauses = _table(there, np.array([item.pause_us for item in items], np.int64))
        sent = _sent_bytes(lengths, statuses) if running_status else lengths
        ready = _moments(pauses + gap_us, sent)
    return Tables(ready, lengths, statuses, _table(there, code))


def _bytes_of(items: Sequence[Item]) -> tuple[Numbers, Numbers, Numbers]:
    """Length, status byte and code of each message."""
    data = [item.data for item in items]
    length = np.fromiter(map(len, data), np.int64, len(data))
    first = np.cumsum(length) - length
    everything = np.frombuffer(b"".join(data) + bytes(2), np.uint8).astype(np.int64)
    code = length << 24
    for place in range(3):
        code |= np.where(length > place, everything[first + place], 0) << (16 - 8 * place)
    return length, everything[first], code


def _table(there: Truths, column: Numbers, *, rest: int = 0) -> Numbers:
    """A column laid out row by row, where there are messages."""
    table = np.full(there.shape, rest, np.int64)
    table[there] = column
    return table


def _one_by_one(sendings: Sequence[Sending], gap_us: int, running_status: bool) -> Numbers:
    times = [
        ready_times(sending.items, gap_us=gap_us, running_status=running_status)
        for sending in sendings
    ]
    return np.array([moment for each in times for moment in each], np.int64)


def _sent_bytes(length: Numbers, status: Numbers) -> Numbers:
    """Lengths without the status bytes that running status leaves out; no real time is among."""
    sent = length.copy()
    same = (status[:, 1:] == status[:, :-1]) & (status[:, 1:] < FIRST_SYSTEM)
    sent[:, 1:] -= same & (length[:, 1:] > 0)
    return sent


def _moments(before_us: Numbers, sent: Numbers) -> Numbers:
    """When each message is handed over: after the time before it, and after all that has left."""
    waited = before_us.copy()
    waited[:, 1:] += sent[:, :-1] * BYTE_US
    times: Numbers = np.cumsum(waited, axis=1)
    return times
