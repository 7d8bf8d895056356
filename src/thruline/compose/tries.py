"""What a changed sequence costs, counted from the place of the change on.

A try stops as soon as it is clear that the cost will not be below the limit, which for most is
early. Each kind of controller has its own way of counting; all agree with `lay`.
"""

from collections.abc import Callable, Sequence
from typing import TypeAlias

from thruline.compose.lay import Cost
from thruline.compose.wire import NO_LIMIT, NOTHING, Wire

Moment: TypeAlias = tuple[int, int, int, int, int]
"""Between two pieces: clock and status of the wire, and the cost so far."""

Try: TypeAlias = Callable[[Sequence[int], Moment, list[int], Cost], Moment | None]
"""Sends pieces from a moment on and gives the moment after, or None when its cost would not be
below the limit. The list holds by piece when those sent before have ended; it is written on."""

BEGINNING: Moment = (0, NOTHING, 0, 0, 0)
NO_COST: Cost = (NO_LIMIT, NO_LIMIT, NO_LIMIT)
"""A cost above every other."""


def moments_of(sequence: Sequence[int], attempt: Try, ends: list[int]) -> list[Moment]:
    """The moments before each piece and after the last; fills in `ends`."""
    moments = [BEGINNING]
    for piece in sequence:
        moments.append(attempt((piece,), moments[-1], ends, NO_COST) or BEGINNING)
    return moments


def with_pauses(wire: Wire) -> Try:
    """Tries for a controller that can pause as often and as long as is wanted."""
    pauses = wire.means.pauses
    return _waiting(wire, pauses.step_us if pauses else 1, int(wire.means.idle_keeps_status))


def at_will(wire: Wire) -> Try:
    """What nobody can beat without a loss: pauses to the microsecond, and status always kept."""
    return _waiting(wire, 1, 1)


def _waiting(wire: Wire, step: int, keeps: int) -> Try:
    before, lag, statuses, full, kept = wire.before, wire.lag, wire.status, wire.full, wire.kept
    rest, tail, load, weight, root = wire.rest, wire.tail, wire.load, wire.weight, wire.root

    def _attempt(
        pieces: Sequence[int], moment: Moment, ends: list[int], limit: Cost
    ) -> Moment | None:
        clock, status, lost, latest, weighted = moment
        _, most_latest, _ = limit
        for piece in pieces:
            ready = ends[before[piece]] + lag[piece]
            if ready > clock:
                clock -= (clock - ready) // step * step
                status *= keeps
            clock += kept[piece] if statuses[piece] == status else full[piece]
            status = statuses[piece]
            ends[piece] = clock
            right = clock + rest[piece]
            if right > latest:
                latest = right
                if latest > most_latest:
                    return None
            if weight[piece]:
                right = max(clock, ends[root[piece]] + load[piece]) + tail[piece]
                weighted += weight[piece] * right
        if (lost, latest, weighted) < limit:
            return clock, status, lost, latest, weighted
        return None

    return _attempt


def without_pauses(wire: Wire) -> Try:
    """Tries for a controller that cannot pause."""
    before, lag, deaf, root = wire.before, wire.lag, wire.deaf, wire.root
    statuses, full, kept = wire.status, wire.full, wire.kept
    rest, tail, load, weight = wire.rest, wire.tail, wire.load, wire.weight
    inside = wire.inside

    def _attempt(
        pieces: Sequence[int], moment: Moment, ends: list[int], limit: Cost
    ) -> Moment | None:
        clock, status, lost, latest, weighted = moment
        most_lost, _, _ = limit
        for piece in pieces:
            heard = ends[root[piece]] + deaf[piece] if deaf[piece] else 0
            if heard > clock or ends[before[piece]] + lag[piece] > clock:
                lost += 1
            clock += kept[piece] if statuses[piece] == status else full[piece]
            status = statuses[piece]
            ends[piece] = clock
            for since in inside[piece]:
                lost += heard > clock - since
            if lost > most_lost:
                return None
            latest = max(latest, clock + rest[piece])
            if weight[piece]:
                right = max(clock, ends[root[piece]] + load[piece]) + tail[piece]
                weighted += weight[piece] * right
        if (lost, latest, weighted) < limit:
            return clock, status, lost, latest, weighted
        return None

    return _attempt
