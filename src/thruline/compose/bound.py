"""Times and losses that no order can beat.

All hold for a controller that can pause whenever and as long as it likes, so they hold for every
controller that cannot.
"""

from collections.abc import Sequence
from heapq import heappop, heappush, heapreplace

from thruline.compose.wire import Wire


def earliest(wire: Wire) -> list[int]:
    """By piece: when it can start at the earliest, as if its job had the wire to itself.

    Idle time that counts as wire time (see `Wire.idle`) belongs to the piece. When all heads leave first, each waits for those before it, and every block for all of them.
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
        times[piece] = start if start > floor else floor
    return times


def least_time(wire: Wire) -> int:
    """A time before which not every unit can be right.

    Jackson's preemptive schedule of the runs, each released when its own job alone would reach it
    and followed by the rest of its own job (J. R. Jackson, 1955; J. Carlier, "The one-machine
    sequencing problem", 1982). It is never below the wire time of everything, nor below what the
    longest job needs on its own.
    """
    releases: list[tuple[int, int]] = []
    works: list[int] = []
    rests: list[int] = []
    for piece, start in enumerate(earliest(wire)):
        if wire.joined[piece]:
            works[-1] += wire.least[piece]
            rests[-1] = wire.rest[piece]
        else:
            releases.append((start, len(works)))
            works.append(wire.least[piece])
            rests.append(wire.rest[piece])
    return preemptive(sorted(releases), works, rests)


def preemptive(releases: Sequence[tuple[int, int]], works: list[int], rests: list[int]) -> int:
    """When the last job is over, if the wire may be taken away from any piece at any moment.

    `releases`, sorted, are pairs of a time and an index into the other two: the wire time of that
    piece, and the time from its end until its job is over. Always the one with the longest rest
    has the wire, which is best (Jackson).
    """
    waiting: list[tuple[int, int]] = []
    clock = over = 0
    for release, index in releases:
        while waiting and clock < release:
            rest, work = waiting[0]
            clock += work
            if clock > release:
                heapreplace(waiting, (rest, clock - release))
                clock = release
            else:
                heappop(waiting)
                over = max(over, clock - rest)
        clock = max(clock, release)
        heappush(waiting, (-rests[index], works[index]))
    while waiting:
        rest, work = heappop(waiting)
        clock += work
        over = max(over, clock - rest)
    return over


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
