"""Better orders by moving one piece at a time, for every kind of controller.

What counts is `lay.Cost`: blocks lost, then the time, then the weighted sum. Each piece in turn is
moved to where it helps most, until none helps. Then a few pieces are moved by chance (the same
chance every time) and it starts again from there, unless that is worse.
"""

from collections.abc import Sequence

from thruline.compose.lay import Cost, cost_of
from thruline.compose.stretches import Stretches, in_stretches
from thruline.compose.tries import at_will, moments_of, with_pauses, without_pauses
from thruline.compose.wire import Wire, most_pauses

_KICK = 3
"""How many pieces are moved by chance."""

_MOST_SWAPS = 2_000
"""How many swaps are tried to come nearer to the order of the jobs: enough for 60 pieces."""


def descend(wire: Wire, sequence: Sequence[int], *, trials: int, whole: bool) -> list[int]:
    """A sequence that costs no more than the given one, after so many trials at most.

    With `whole`, blocks that follow each other without a break are moved together.
    """
    if whole:
        stretches, order = in_stretches(wire, sequence)
    else:
        stretches, order = Stretches(wire, list(range(len(wire.job) + 1))), list(sequence)
    if len(order) < 2:
        return list(sequence)
    walk = _Walk(wire, stretches, order, trials)
    walk.down()
    chance = 1
    while walk.trials > 0:
        best, best_cost, before = walk.order, walk.cost, walk.trials
        order = list(best)
        for _ in range(_KICK):
            chance = chance * 48271 % 0x7FFFFFFF
            walk.kick(order, chance)
        walk.stand(order)
        walk.down()
        if walk.cost > best_cost:
            walk.stand(best)
        if walk.trials == before:
            break  # nothing here can be moved
    walk.by_job()
    return stretches.apart(walk.order)


class _Walk:
    """An order of stretches with all that is known at each place of it."""

    def __init__(self, wire: Wire, stretches: Stretches, order: list[int], trials: int) -> None:
        self.whole = wire
        self.stretches = stretches
        self.wire = stretches.wire
        self.trials = trials
        self.heads = 0
        """How many places at the beginning are not free."""
        if wire.means.programs_first:
            self.heads = sum(block < 0 for block in wire.block)
        self.attempt = None
        self.floor = at_will(self.wire)
        """For those who can pause a few times, whose orders can only be counted whole."""
        if wire.waits:
            self.attempt = with_pauses(self.wire)
        elif not most_pauses(wire.means):
            self.attempt = without_pauses(self.wire)
        self.stand(order)

    def stand(self, order: list[int]) -> None:
        """Take up an order."""
        self.order = order
        self.ends = [0] * (len(order) + 1)
        self.moments = moments_of(order, self.attempt or self.floor, self.ends)
        self.cost: Cost = self.moments[-1][2:]
        if not self.attempt:
            self.cost = cost_of(self.whole, self.stretches.apart(order))

    def down(self) -> None:
        """Move pieces for the better until no single move helps or all trials are used."""
        place = useless = 0
        while useless < len(self.order) and self.trials > 0:
            useless = 0 if self.improve(place) else useless + 1
            place = (place + 1) % len(self.order)

    def improve(self, place: int) -> bool:
        """Move the piece at this place to where it helps most, if it helps anywhere."""
        best, limit = place, self.cost
        for target in self.places(self.order, place):
            if target != place:
                cost = self.cost_of(_moved(self.order, place, target), min(place, target), limit)
                if cost is not None:
                    best, limit = target, cost
        if best == place:
            return False
        self.stand(_moved(self.order, place, best))
        return True

    def places(self, order: list[int], place: int) -> range:
        """Where the piece at this place may go."""
        if place < self.heads:
            return range(place, place)
        piece = order[place]
        before, after = self.wire.before[piece], self.wire.after[piece]
        low = max(self.heads, order.index(before) + 1 if before >= 0 else 0)
        return range(low, order.index(after) if after >= 0 else len(order))

    def cost_of(self, order: list[int], place: int, limit: Cost) -> Cost | None:
        """The cost of an order that is new from a place on, or None if not below the limit."""
        self.trials -= 1
        attempt = self.attempt or self.floor
        end = attempt(order[place:], self.moments[place], self.ends[:], limit)
        if self.attempt:
            return end and end[2:]
        if end is None and not limit[0]:
            return None  # as no pauses can help
        cost = cost_of(self.whole, self.stretches.apart(order))
        return cost if cost < limit else None

    def kick(self, order: list[int], chance: int) -> None:
        """Move a piece somewhere else by chance."""
        place = chance % len(order)
        places = self.places(order, place)
        if places:
            piece = order.pop(place)
            order.insert(places[chance // len(order) % len(places)], piece)

    def by_job(self) -> None:
        """Swap neighbours that stand against the order of the jobs where that is no loss.

        So that a sending looks the same after an edit that does not touch it.
        """
        place, self.trials = 1, _MOST_SWAPS
        while place < len(self.order) and self.trials > 0:
            ahead, piece = self.order[place - 1], self.order[place]
            if self.wire.job[piece] < self.wire.job[ahead] and place > self.heads:
                changed = _moved(self.order, place, place - 1)
                lost, latest, weighted = self.cost
                if self.cost_of(changed, place - 1, (lost, latest, weighted + 1)) is not None:
                    self.stand(changed)
                    place = max(1, place - 1)
                    continue
            place += 1


def _moved(order: list[int], place: int, target: int) -> list[int]:
    changed = order[:]
    changed.insert(target, changed.pop(place))
    return changed
