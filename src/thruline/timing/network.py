"""Lines and what feeds them. A line is what one output puts on the wire."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from thruline.base.errors import CannotUse
from thruline.timing.statuses import Statuses


class Way(StrEnum):
    """How a unit that sends received messages on takes them from its input."""

    WHOLE = "whole"
    """A message is queued when all of it has been received."""
    BYTES = "bytes"
    """Each byte is queued when it has been received; the messages still leave one by one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Feed:
    """One input of an output: the line it listens to, and what it does with what it hears."""

    source: int
    """Index of the line that is heard."""
    latency_us: int = 0
    """From the last bit received (of the message, or of the byte) until it is queued."""
    way: Way = Way.WHOLE
    blocks: Statuses = frozenset()
    """Status bytes of messages that are not passed on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Output:
    """A line with a queue: one byte after the other, first come first served.

    What becomes ready at the same moment goes by feed, in their order, then by the own sender. A
    message is never mixed with another; only real-time messages may stand inside one.
    """

    feeds: tuple[Feed, ...] = ()
    sender: int | None = None
    """Index of the sender whose messages start here; several outputs may share one."""
    running_status: bool = False
    """Leave out a status byte equal to that of the message before. Each output does this for its
    own messages; system exclusive and system common end it, real time does not touch it."""
    refresh_us: int | None = None
    """Send the status all the same when the message was queued more than this after the one
    before."""
    buffer_bytes: int | None = None
    """Room for what is queued or being sent; None when there is always room. See `room`."""
    real_time_first: bool = False
    """A real-time byte takes the next byte's place on the wire; otherwise it queues as any message
    does, and waits for the whole of one that it came inside of. A byte-wise echo that leaves it
    where it was is one that lets it go first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """A line that is an electrical copy of another: the same bytes, a moment later, no queue."""

    source: int
    delay_us: int = 0


Line: TypeAlias = Output | Copy


@dataclass(frozen=True, slots=True, kw_only=True)
class Network:
    """Lines whose every reference is good and which feed each other without a ring."""

    lines: tuple[Line, ...]
    in_order: tuple[int, ...]
    """Every line after all that it hears."""
    heard_by: tuple[tuple[int, ...], ...]
    """For each line the lines that listen to it."""
    senders: int
    """How many senders the lines speak of."""


def network(lines: Sequence[Line]) -> Network:
    """Check lines and put them in order.

    Raises CannotUse for a line or sender that does not exist, a negative time or buffer, and for a
    ring of lines, whose indices it names.
    """
    for index, line in enumerate(lines):
        _check(index, line, count=len(lines))
    heard_by: list[list[int]] = [[] for _ in lines]
    for index, line in enumerate(lines):
        for source in sorted(set(sources(line))):
            heard_by[source].append(index)
    owned = [line.sender for line in lines if isinstance(line, Output) and line.sender is not None]
    return Network(
        lines=tuple(lines),
        in_order=_in_order(lines, heard_by),
        heard_by=tuple(map(tuple, heard_by)),
        senders=max(owned, default=-1) + 1,
    )


def sources(line: Line) -> tuple[int, ...]:
    """The lines that a line hears."""
    match line:
        case Output(feeds=feeds):
            return tuple(feed.source for feed in feeds)
        case Copy(source=source):
            return (source,)


def _check(index: int, line: Line, *, count: int) -> None:
    """Raise CannotUse when a line by itself cannot be."""
    for source in sources(line):
        if not 0 <= source < count:
            raise CannotUse(f"line {index} hears line {source}; lines are 0 to {count - 1}")
    match line:
        case Copy(delay_us=delay):
            numbers = [delay]
        case Output(feeds=feeds):
            optional = (line.sender, line.refresh_us, line.buffer_bytes)
            numbers = [feed.latency_us for feed in feeds]
            numbers += [number for number in optional if number is not None]
    if min(numbers, default=0) < 0:
        raise CannotUse(f"line {index} has a time, a buffer or a sender below 0")


def _in_order(lines: Sequence[Line], heard_by: Sequence[Sequence[int]]) -> tuple[int, ...]:
    """Every line after its sources. Raises CannotUse when they close a ring."""
    waits_for = [len(set(sources(line))) for line in lines]
    order = [index for index, count in enumerate(waits_for) if count == 0]
    for index in order:
        for listener in heard_by[index]:
            waits_for[listener] -= 1
            if waits_for[listener] == 0:
                order.append(listener)
    if len(order) < len(lines):
        ring = _ring(lines, {index for index in range(len(lines)) if index not in set(order)})
        raise CannotUse(
            f"lines {', '.join(map(str, ring))} feed each other in a ring: "
            "a message would go round without end; open the ring at one of them"
        )
    return tuple(order)


def _ring(lines: Sequence[Line], stuck: set[int]) -> list[int]:
    """One ring among lines that all wait for another of them, in the direction of the messages."""
    walk = [min(stuck)]
    while walk.count(walk[-1]) == 1:
        walk.append(min(source for source in sources(lines[walk[-1]]) if source in stuck))
    ring = walk[walk.index(walk[-1]) + 1 :][::-1]
    first = ring.index(min(ring))
    return ring[first:] + ring[:first]
