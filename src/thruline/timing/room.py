"""How full the buffer of an output gets, and the proof that it is never too full.

What takes room: a message that comes whole, all its bytes (with the status byte) from the moment
it is queued until its last byte has left; of a message that comes byte by byte, each byte that
will be sent, from the moment it is queued until it has left. What leaves at a moment makes room for
what comes at that moment. Real-time bytes that go first wait beside the queue and take no room.

When a queue with endless room never holds more than there is, nothing is lost and its times stand.
Nearly every buffer is proved large enough that way; the others are for `loss`.
"""

from typing import NamedTuple

import numpy as np

from thruline.base.measures import BYTE_US
from thruline.timing import queues
from thruline.timing.arrivals import Arrivals, bytes_of
from thruline.timing.flow import Flow
from thruline.timing.traffic import Numbers, Truths

NOBODY: Numbers = np.empty(0, np.int64)


def crowded(flow: Flow, room_bytes: int | None) -> Numbers:
    """Which messages, all of them come whole, find too little room.

    `flow` was played with endless room. Answers with positions in all that was sent.
    """
    if room_bytes is None or flow.came_us is None:
        return NOBODY
    surely_us = flow.latency_us + (room_bytes // 2 - flow.order.longest) * BYTE_US
    found = []
    for part in queues.blocks(flow.end_us.size):
        came = flow.came_us[part]
        if np.subtract(flow.end_us[part], came).max() <= surely_us:
            # What is held when a message comes has left when it has: at most that time's bytes and
            # those that the message on the wire has behind it; at most twice as many were held, as
            # only a status byte beside at least one data byte is left out.
            continue
        need = flow.order.last_to_have_left(room_bytes)[part]
        crowded = (flow.end_us[need] - flow.latency_us > came) & (need >= 0)
        found.append(np.flatnonzero(crowded) + part.start)
    where = np.concatenate(found) if found else NOBODY
    return flow.order.positions[where] if where.size else NOBODY


class Stays(NamedTuple):
    """Things that took room, each a message or a byte."""

    position: Numbers
    """Whose: the position of its message in all that was sent."""
    held: Numbers
    """Bytes held just after it came."""


def stays(
    coming: Arrivals, counted: Truths, *, sent_bytes: Numbers, ready_us: Numbers, end_us: Numbers
) -> Stays:
    """What was held when, of messages some of which came byte by byte.

    `ready_us` and `end_us` are those of every byte that was sent; `counted` leaves out messages
    that wait beside the queue.
    """
    whole = np.ones_like(counted) if coming.whole is None else coming.whole
    at_once, by_byte = np.flatnonzero(counted & whole), np.flatnonzero(counted & ~whole)
    last = np.add.accumulate(sent_bytes) - 1
    single = bytes_of(sent_bytes, by_byte)
    owner = np.concatenate([at_once, np.repeat(by_byte, sent_bytes[by_byte])])
    held = queues.held_at_coming(
        np.concatenate([coming.ready_us[at_once], ready_us[single]]),
        np.concatenate([end_us[last[at_once]], end_us[single]]),
        np.concatenate([coming.order.length[at_once], np.ones_like(single)]),
    )
    return Stays(coming.order.positions[owner], held)


def crowded_stays(stays: Stays, room_bytes: int | None) -> Numbers:
    """Which messages find too little room, by their positions in all that was sent."""
    return NOBODY if room_bytes is None else stays.position[stays.held > room_bytes]
