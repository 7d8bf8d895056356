"""Orders made in one go: the longest-tail rule, and those that people use, to compare with."""

from heapq import heappop, heappush

from thruline.compose.lay import cost_of
from thruline.compose.wire import NO_LIMIT, NOTHING, Wire


def by_longest_tail(wire: Wire) -> tuple[list[int], int]:
    """Whenever the wire is free: of the runs that may start, the one whose unit needs longest.

    Never waits while something may start. Without controls nothing is better (two neighbours in
    the other order can be swapped without loss); with them the rule can be beaten, because a
    short wait may let in a run that is longer in the making. Ties go in the order of the jobs.

    Also when all is right if the controller can pause at will, in microseconds.
    """
    coming = [
        (wire.lag[first], first)
        for first, end in zip(wire.first, wire.first[1:], strict=False)
        if first < end
    ]
    coming.sort()
    ready: list[tuple[int, int]] = []
    sequence: list[int] = []
    clock, status, over = 0, NOTHING, 0
    while coming or ready:
        if not ready and coming[0][0] > clock:
            clock = coming[0][0]
            status = status if wire.means.idle_keeps_status else NOTHING
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
        over = max(over, clock + wire.rest[piece])
        if after >= 0:
            heappush(coming, (clock + wire.lag[after], after))
    return sequence, over


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


def without_waiting(wire: Wire) -> list[int]:
    """For a controller that cannot pause: few blocks lost, because some are given up for others.

    All heads first, the deafest unit's foremost; then the blocks of the deafest few, too early, to
    fill the time of the others; then those, as their units listen again. As many are given up as
    is best.
    """
    spans = list(zip(wire.first, wire.first[1:], strict=False))
    deaf = [max(wire.deaf[first:end], default=0) for first, end in spans]
    by_deafness = sorted(range(len(spans)), key=deaf.__getitem__)
    heads = [piece for piece, block in enumerate(wire.block) if block < 0]
    if not wire.means.programs_first:
        heads.sort(key=lambda head: -deaf[wire.job[head]])
    orders = []
    for given_up in range(len(spans) + 1):
        kept = len(spans) - given_up
        jobs = by_deafness[kept:] + by_deafness[:kept]
        pieces = (piece for job in jobs for piece in range(*spans[job]))
        orders.append(heads + [piece for piece in pieces if wire.block[piece] >= 0])
    return min(orders, key=lambda order: cost_of(wire, order))
