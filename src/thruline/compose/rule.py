"""Orders made in one go: the longest-tail rule, and those that people use, to compare with."""

from heapq import heappop, heappush

from thruline.compose.lay import NO_LIMIT
from thruline.compose.wire import NOTHING, Wire


def longest_tail_first(wire: Wire) -> list[int]:
    """Whenever the wire is free: of the runs that may start, the one whose unit needs longest.

    Never waits while something may start. Without controls nothing is better (two neighbours in
    the other order can be swapped without loss); with them the rule can be beaten, because a
    short wait may let in a run that is longer in the making. Ties go in the order of the jobs.
    """
    coming = [
        (wire.lag[first], first)
        for first, end in zip(wire.first, wire.first[1:], strict=False)
        if first < end
    ]
    coming.sort()
    ready: list[tuple[int, int]] = []
    sequence: list[int] = []
    clock, status = 0, NOTHING
    while coming or ready:
        if not ready and coming[0][0] > clock:
            clock = coming[0][0]
        while coming and coming[0][0] <= clock:
            piece = heappop(coming)[1]
            heappush(ready, (_urgency(wire, piece), piece))
        piece = heappop(ready)[1]
        clock += wire.kept[piece] if wire.status[piece] == status else wire.full[piece]
        sequence.append(piece)
        while (after := wire.after[piece]) >= 0 and wire.joined[after]:
            clock += wire.kept[after]
            sequence.append(after)
            piece = after
        status = wire.status[piece]
        if after >= 0:
            heappush(coming, (clock + wire.lag[after], after))
    return sequence


def _urgency(wire: Wire, piece: int) -> int:
    """The less the sooner: what remains after the run; a head before all else if it must be."""
    if wire.block[piece] < 0 and wire.means.programs_first:
        return -NO_LIMIT
    while (after := wire.after[piece]) >= 0 and wire.joined[after]:
        piece = after
    return -wire.rest[piece]


def as_listed(wire: Wire) -> list[int]:
    """The order of the jobs: unit by unit, or all heads and then all blocks."""
    return heads_first(wire) if wire.means.programs_first else list(range(len(wire.job)))


def heads_first(wire: Wire) -> list[int]:
    """All heads, then all blocks, both in the order of the jobs."""
    return sorted(range(len(wire.job)), key=lambda piece: (wire.block[piece] >= 0, piece))
