"""All orders, for a few pieces: what is left after those that cannot be better.

This works for controllers whose pauses come in steps, or that have none, where looking from the
end is no help; and it settles the weighted sum as well.
"""

from dataclasses import dataclass

from thruline.compose.lay import Cost
from thruline.compose.tries import BEGINNING, NO_COST, Moment, Try, with_pauses, without_pauses
from thruline.compose.wire import Wire


@dataclass(frozen=True, slots=True)
class Searched:
    """What the search found."""

    sequence: list[int] | None
    """An order that costs less than asked, or None."""
    whole: bool
    """Whether nothing costs less than this one (or than asked)."""


def search_all(wire: Wire, *, below: Cost, nodes: int) -> Searched:
    """Look for an order that costs less, in at most so many steps.

    For controllers that can pause as often as is wanted, or not at all.
    """
    search = _Search(wire, below, nodes)
    search.visit(BEGINNING)
    return Searched(search.best, search.nodes >= 0)


class _Search:
    """A sending under way, in the order of the wire."""

    def __init__(self, wire: Wire, below: Cost, nodes: int) -> None:
        self.wire = wire
        self.below = below
        self.nodes = nodes
        self.best: list[int] | None = None
        self.attempt: Try = with_pauses(wire) if wire.waits else without_pauses(wire)
        self.waits = wire.waits
        spans = list(zip(wire.first, wire.first[1:], strict=False))
        self.next = [first if first < end else -1 for first, end in spans]
        """By job: its next piece, -1 when there is none."""
        self.weight = [sum(wire.weight[first:end]) for first, end in spans]
        self.tail = [sum(wire.tail[first:end]) for first, end in spans]
        self.order: list[int] = []
        self.ends = [0] * (len(wire.job) + 1)
        self.left = sum(wire.least)

    def visit(self, moment: Moment) -> None:
        """Try everything that can follow."""
        self.nodes -= 1
        coming = [piece for piece in self.next if piece >= 0]
        if not coming:
            self.below, self.best = moment[2:], self.order[:]
            return
        if self.nodes < 0 or self.at_least(moment, coming) >= self.below:
            return
        if self.wire.means.programs_first and any(self.wire.block[one] < 0 for one in coming):
            coming = [next(one for one in coming if self.wire.block[one] < 0)]
        for piece in coming:
            after = self.attempt((piece,), moment, self.ends, NO_COST)
            if after is not None and after[2:] < self.below:
                self.go_on(piece, after)

    def go_on(self, piece: int, moment: Moment) -> None:
        """Send the piece, look further, and take it back."""
        job = self.wire.job[piece]
        self.next[job] = self.wire.after[piece]
        self.left -= self.wire.least[piece]
        self.order.append(piece)
        self.visit(moment)
        self.order.pop()
        self.left += self.wire.least[piece]
        self.next[job] = piece

    def at_least(self, moment: Moment, coming: list[int]) -> Cost:
        """What the whole will cost at least."""
        wire = self.wire
        clock, _, lost, latest, weighted = moment
        for piece in coming:
            start = clock
            if self.waits:
                start = max(
                    clock, self.ends[wire.before[piece]] + wire.lag[piece] - wire.idle[piece]
                )
            right = start + wire.least[piece] + wire.rest[piece]
            latest = max(latest, right)
            weighted += right * self.weight[wire.job[piece]]
        least_tail = min(self.tail[wire.job[piece]] for piece in coming)
        return lost, max(latest, clock + self.left + least_tail), weighted
