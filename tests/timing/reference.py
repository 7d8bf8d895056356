"""The same network played byte by byte, one event after the other: slow, plain, and easy to check.

Nothing here is shared with the kernel but the description of the lines. Times are whole
microseconds; every decision is taken where it falls.
"""

import heapq
from collections import deque
from dataclasses import dataclass, field
from itertools import count

from thruline.timing.network import Copy, Way

BYTE = 320
BYTE_ENDS, MESSAGE_COMES, DECIDE = 0, 1, 2  # what happens first at one moment


@dataclass
class Message:
    """One message at one output."""

    ident: int
    status: int
    ready: list[int]  # when each of its bytes may be sent, status byte first
    whole: bool = True
    omitted: bool = False
    ends: list[int] = field(default_factory=list)  # when each sent byte has ended

    @property
    def is_real_time(self):
        return self.status >= 0xF8


@dataclass
class Tape:
    """What was on a line: messages in the order in which they ended; what was lost; most held."""

    messages: list[Message]
    lost: list[tuple[int, int]] = field(default_factory=list)
    most_held: int = 0

    def rows(self):
        """(ident, start, end, end of every byte) for each message."""
        return [(m.ident, m.ends[0] - BYTE, m.ends[-1], tuple(m.ends)) for m in self.messages]


def play(lines, senders):
    """One tape a line. A sender is a list of (ready, length, status, ident)."""
    tapes = {}

    def tape_of(index):
        if index not in tapes:
            line = lines[index]
            if isinstance(line, Copy):
                tapes[index] = copied(tape_of(line.source), line.delay_us)
            else:
                tapes[index] = serve(line, comings(line, tape_of, senders))
        return tapes[index]

    return [tape_of(index) for index in range(len(lines))]


def copied(tape, delay):
    return Tape(
        [
            Message(m.ident, m.status, m.ready, omitted=m.omitted, ends=[e + delay for e in m.ends])
            for m in tape.messages
        ]
    )


def comings(line, tape_of, senders):
    """Fresh messages at an output, in the order in which they come."""
    keyed = []
    for rank, feed in enumerate(line.feeds):
        for number, heard in enumerate(tape_of(feed.source).messages):
            if heard.status not in feed.blocks:
                message = received(heard, feed)
                keyed.append((message.ready[0], rank, number, message))
    if line.sender is not None:
        for number, (ready, length, status, ident) in enumerate(senders[line.sender]):
            message = Message(ident, status, [ready] * length)
            keyed.append((ready, len(line.feeds), number, message))
    # a byte-wise input counts its messages by their first bytes, so `ready` alone orders them
    return [entry[-1] for entry in sorted(keyed, key=lambda entry: entry[:3])]


def received(heard, feed):
    """A message of the line before as it becomes ready at the next output."""
    full = [heard.ends[0], *heard.ends] if heard.omitted else heard.ends
    if feed.way is Way.WHOLE:
        return Message(heard.ident, heard.status, [heard.ends[-1] + feed.latency_us] * len(full))
    return Message(heard.ident, heard.status, [e + feed.latency_us for e in full], whole=False)


def serve(line, messages):
    """One output. Lines with byte-wise inputs try each message by playing it out."""
    if line.buffer_bytes is None or all(m.whole for m in messages):
        return serve_whole(line, messages, line.buffer_bytes)
    place = {id(message): number for number, message in enumerate(messages)}
    # real time that goes first is always let in, whenever it comes
    allowed = [m for m in messages if line.real_time_first and m.is_real_time]
    lost = []
    for message in messages:
        if line.real_time_first and message.is_real_time:
            continue
        trial = sorted([*allowed, message], key=lambda m: place[id(m)])
        if serve_whole(line, [fresh(m) for m in trial], None).most_held <= line.buffer_bytes:
            allowed = trial
        else:
            lost.append((message.ident, message.ready[0]))
    tape = serve_whole(line, allowed, None)
    tape.lost = lost
    return tape


def fresh(message):
    return Message(message.ident, message.status, message.ready, message.whole)


@dataclass
class Wire:
    """The state of one output between two events."""

    tape: Tape = field(default_factory=lambda: Tape([]))
    queue: deque = field(default_factory=deque)
    urgent: deque = field(default_factory=deque)
    held: int = 0
    busy: bool = False
    before: Message | None = None  # the last that was sent, real time aside


def serve_whole(line, messages, room):
    """The event loop: bytes end, messages come, the wire decides what to send next."""
    numbers = count()
    events = [(m.ready[0], MESSAGE_COMES, next(numbers), m) for m in messages]
    events += [(us, DECIDE, next(numbers), None) for m in messages for us in m.ready]
    heapq.heapify(events)
    wire = Wire()
    while events:
        now, what, _, message = heapq.heappop(events)
        if what == MESSAGE_COMES:
            comes(line, wire, message, room)
        elif what == BYTE_ENDS:
            byte_ends(wire, message, now)
            heapq.heappush(events, (now, DECIDE, next(numbers), None))
        elif not wire.busy:
            message = next_to_send(line, wire, now)
            if message is not None:
                wire.busy = True
                heapq.heappush(events, (now + BYTE, BYTE_ENDS, next(numbers), message))
    wire.tape.most_held = most_held(line, wire.tape.messages)
    return wire.tape


def comes(line, wire, message, room):
    """A message joins the queue, or is lost."""
    if line.real_time_first and message.is_real_time:
        wire.urgent.append(message)
    elif room is not None and wire.held + len(message.ready) > room:
        wire.tape.lost.append((message.ident, message.ready[0]))
    else:
        wire.held += len(message.ready)
        wire.queue.append(message)


def byte_ends(wire, message, now):
    """A byte has left; with the last one the message has."""
    wire.busy = False
    message.ends.append(now)
    if len(message.ends) < len(message.ready) - message.omitted:
        return
    wire.tape.messages.append(message)
    if wire.urgent and wire.urgent[0] is message:
        wire.urgent.popleft()
        return
    wire.held -= len(message.ready)
    wire.queue.popleft()
    if not message.is_real_time:
        wire.before = message


def next_to_send(line, wire, now):
    """The message whose next byte goes now; None when there is none, or it has not come yet."""
    if wire.urgent:
        message = wire.urgent[0]
    elif wire.queue:
        message = wire.queue[0]
    else:
        return None
    if not message.ends:
        message.omitted = omits(line, message, wire.before)
    return message if message.ready[len(message.ends) + message.omitted] <= now else None


def omits(line, message, before):
    """Whether running status leaves out the status byte."""
    if not line.running_status or before is None or not 0x80 <= message.status < 0xF0:
        return False
    if message.status != before.status:
        return False
    return line.refresh_us is None or message.ready[0] - before.ready[0] <= line.refresh_us


def most_held(line, messages):
    """The fullest moment, counted anew at every coming."""
    stays = []
    for m in messages:
        if line.real_time_first and m.is_real_time:
            continue
        if m.whole:
            stays.append((m.ready[0], m.ends[-1], len(m.ready)))
        else:
            sent = m.ready[1:] if m.omitted else m.ready
            stays += [(ready, end, 1) for ready, end in zip(sent, m.ends, strict=True)]
    return max((sum(s for b, e, s in stays if b <= t < e) for t, _, _ in stays), default=0)
