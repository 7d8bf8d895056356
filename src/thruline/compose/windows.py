"""What must hold in any order that ends before a given time: often, that there is none.

Each piece has a window, from when it can start at the earliest to when it must have ended. Windows
are narrowed until nothing changes, by what goes before and after in the same job, and by edge
finding: if a piece cannot come before (or not last among) some others, it starts after them
(J. Carlier and E. Pinson, 1989; the way of counting is that of W. Nuijten, 1994). When a piece does
not fit into its window any more, there is no such order.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from thruline.compose.bound import earliest, with_least
from thruline.compose.wire import NO_LIMIT, Wire


@dataclass(frozen=True, slots=True)
class Windows:
    """A wire with, by piece, its earliest start and how long before all is right it must end."""

    wire: Wire
    starts: list[int]
    rests: list[int]


def open_windows(wire: Wire) -> Windows:
    """The windows when nothing is known of the end."""
    return Windows(wire, earliest(wire), wire.rest)


def squeezed(wire: Wire, *, below_us: int) -> Windows | None:
    """The windows of all orders that end before a time, or None when there are none.

    A piece that comes some lag after another of its status can keep it only if the wire idles
    through that lag. Where there is no time for that, its full wire time is counted in the answer.
    """
    windows = narrowed(wire, below_us)
    for piece, idle_us in enumerate(wire.idle):
        if idle_us and windows:
            lag_us = wire.lag[piece]
            kept_us = wire.least[piece] - idle_us
            idling = with_least(wire, piece, kept_us + lag_us, idle_us=lag_us)
            if narrowed(idling, below_us) is None:
                wire = with_least(wire, piece, wire.full[piece], idle_us=0)
                windows = narrowed(wire, below_us)
    return windows


def narrowed(wire: Wire, below_us: int) -> Windows | None:
    """The windows of all orders that end before a time, or None when a piece has no room."""
    most_us = below_us - 1
    narrowing = _Narrowing(
        wire, list(wire.least), earliest(wire), [most_us - rest for rest in wire.rest]
    )
    before = None
    while before != (narrowing.starts, narrowing.ends):
        before = narrowing.starts[:], narrowing.ends[:]
        if not narrowing.by_job() or not narrowing.by_others():
            return None
    return Windows(wire, narrowing.starts, [most_us - end for end in narrowing.ends])


@dataclass(slots=True)
class _Narrowing:
    """By piece: wire time, earliest start and latest end."""

    wire: Wire
    works: list[int]
    starts: list[int]
    ends: list[int]

    def by_others(self) -> bool:
        """What the other pieces leave room for; False when some do not fit."""
        starts = _after_others(self.starts, self.works, self.ends)
        if starts is None:
            return False
        ends = _after_others([-end for end in self.ends], self.works, [-one for one in starts])
        if ends is None:
            return False
        self.starts, self.ends = starts, [-end for end in ends]
        return True

    def by_job(self) -> bool:
        """What goes before and after in the same job; a run that must be cut needs its status.

        False when a piece does not fit.
        """
        wire, starts, ends, works = self.wire, self.starts, self.ends, self.works
        for piece, before in enumerate(wire.before):
            if before < 0:
                continue
            if wire.joined[piece] and starts[piece] > ends[before]:
                works[piece] = max(works[piece], wire.full[piece])
            soonest = starts[before] + works[before] + wire.lag[piece] - wire.idle[piece]
            starts[piece] = max(starts[piece], soonest)
        for piece in range(len(works) - 1, -1, -1):
            before = wire.before[piece]
            if before >= 0:
                latest = ends[piece] - works[piece] - wire.lag[piece] + wire.idle[piece]
                ends[before] = min(ends[before], latest)
        return all(a + b <= c for a, b, c in zip(starts, works, ends, strict=True))


def _after_others(
    starts: Sequence[int], works: Sequence[int], ends: Sequence[int]
) -> list[int] | None:
    """Later starts for pieces that must come after others; None when some cannot all fit.

    Turned round in time (all signs changed, starts and ends swapped) it gives earlier ends.
    """
    raised = list(starts)
    order = sorted(range(len(starts)), key=starts.__getitem__)
    for deadline in sorted(set(ends)):
        total, over = 0, -NO_LIMIT
        overs: list[int] = []
        for piece in reversed(order):
            if ends[piece] <= deadline:
                total += works[piece]
                over = max(over, starts[piece] + total)
            overs.append(over)
        if over > deadline:
            return None
        _raise(raised, _Inside(starts, works, ends, order, overs, deadline, total))
    return raised


@dataclass(frozen=True, slots=True)
class _Inside:
    """The pieces that must end by a deadline, among all."""

    starts: Sequence[int]
    works: Sequence[int]
    ends: Sequence[int]
    order: list[int]
    """All pieces by their earliest start."""
    overs: list[int]
    """When those inside are over at the earliest: the last in that order, the last two, ..."""
    deadline: int
    total: int
    """Wire time of all inside."""


def _raise(raised: list[int], inside: _Inside) -> None:
    """Raise the start of each piece outside that those inside do not let pass."""
    starts, works, deadline, total = inside.starts, inside.works, inside.deadline, inside.total
    all_over = inside.overs[-1]
    over = -NO_LIMIT
    for piece, later_over in zip(inside.order, reversed(inside.overs), strict=True):
        if inside.ends[piece] <= deadline:
            over = max(over, starts[piece] + total)
            total -= works[piece]
            continue
        if starts[piece] + total + works[piece] > deadline:
            raised[piece] = max(raised[piece], later_over)
        if over + works[piece] > deadline:
            raised[piece] = max(raised[piece], all_over)
