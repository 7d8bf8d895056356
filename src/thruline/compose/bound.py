"""Times and losses that no order can beat.

All hold for a controller that can pause whenever and as long as it likes, so they hold for every
controller that cannot.
"""

from dataclasses import replace
from heapq import heappop, heappush, heapreplace
from typing import TypeAlias

from thruline.compose.wire import Wire

Piece: TypeAlias = tuple[int, int, int]
"""When it may start, minus the time from its end until its job is over, and its wire time."""


def earliest(wire: Wire) -> list[int]:
    """By piece: when it can start at the earliest, as if its job had the wire to itself.

    Idle time that counts as wire time (see `Wire.idle`) belongs to the piece. When all heads leave
    first, each waits for those before it, and every block for all of them.
    """
    times = [0] * len(wire.job)
    heads_us = sum(wire.full[piece] for piece, block in enumerate(wire.block) if block < 0)
    clock, floor = 0, heads_us if wire.means.programs_first else 0
    for piece, before in enumerate(wire.before):
        if wire.block[piece] < 0:
            times[piece] = clock
            clock += wire.full[piece] if wire.means.programs_first else 0
            continue
        start = wire.lag[piece] - wire.idle[piece]
        if before >= 0:
            start += times[before] + wire.least[before]
        times[piece] = max(floor, start)
    return times


def least_time(wire: Wire) -> int:
    """A time before which not every unit can be right.

    Jackson's preemptive schedule of the runs, each released when its own job alone would reach it
    and followed by the rest of its own job (J. R. Jackson, 1955; J. Carlier, "The one-machine
    sequencing problem", 1982). It is never below the wire time of everything, nor below what the
    longest job needs on its own.
    """
    pieces: list[Piece] = []
    for piece, start in enumerate(earliest(wire)):
        if wire.joined[piece]:
            release, _, work = pieces.pop()
            pieces.append((release, -wire.rest[piece], work + wire.least[piece]))
        else:
            pieces.append((start, -wire.rest[piece], wire.least[piece]))
    return preemptive(pieces)


def preemptive(pieces: list[Piece]) -> int:
    """When all is over, if the wire may be taken away from any piece at any moment.

    Always the released piece after which most remains has the wire, which is best (Jackson).
    """
    pieces.sort()
    waiting: list[tuple[int, int]] = []
    clock = over = 0
    for release, rest, work in pieces:
        while waiting and clock < release:
            longest, left = waiting[0]
            clock += left
            if clock > release:
                heapreplace(waiting, (longest, clock - release))
                clock = release
                break
            heappop(waiting)
            over = max(over, clock - longest)
        clock = max(clock, release)
        heappush(waiting, (rest, work))
    waiting.sort()
    for rest, work in waiting:
        clock += work
        over = max(over, clock - rest)
    return over


def with_least(wire: Wire, piece: int, least_us: int, *, idle_us: int) -> Wire:
    """The wire with another least time for one piece, `idle_us` of it before the piece."""
    least, idle, rest = wire.least[:], wire.idle[:], wire.rest[:]
    least[piece], idle[piece] = least_us, idle_us
    while (before := wire.before[piece]) >= 0:
        following = wire.lag[piece] - idle[piece] + least[piece] + rest[piece]
        rest[before] = max(rest[before], following)
        piece = before
    return replace(wire, least=least, idle=idle, rest=rest)


def surely_lost(wire: Wire) -> int:
    """How many blocks come too early in every order, when nothing can pause.

    Such a block would come too early even if everything else that may stand between it and what
    it has to keep away from stood there.
    """
    total = sum(wire.full)
    lost = 0
    for first, end in zip(wire.first, wire.first[1:], strict=False):
        others = total - sum(wire.full[first:end])
        since_head = others
        for piece in range(first, end):
            lost += wire.lag[piece] > others or wire.deaf[piece] > since_head
            since_head += 0 if wire.block[piece] < 0 else wire.full[piece]
    return lost
