"""A sequence laid on the wire: when each piece starts and ends, what is lost, when all is right.

This is the one place that says what an order means. The searches count faster in their own ways,
and the tests hold them against this.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from thruline.compose.jobs import Pauses, Slot
from thruline.compose.wire import NO_LIMIT, NOTHING, Wire, longest_pause, most_pauses

Cost: TypeAlias = tuple[int, int, int]
"""Blocks lost, then when the last unit is right, then the weighted sum: less is better."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """What becomes of a sequence."""

    slots: tuple[Slot, ...]
    lost: tuple[Slot, ...]
    """The blocks that start before their unit listens."""
    right_us: tuple[int, ...]
    """By job; 0 for a job that sends nothing."""
    cost: Cost


def lay(wire: Wire, sequence: Sequence[int]) -> Laid:
    """Send the pieces one behind the other, each as early as the controller can.

    A controller that has a pause left waits until the piece may start, in whole steps; with its
    last one it waits for everything that comes after, too. One that has none sends at once.
    """
    starts, ends, pauses, lost = _times(wire, sequence)
    job, block = wire.job, wire.block
    slots = [
        Slot(
            job[piece],
            block[piece] if block[piece] >= 0 else None,
            starts[piece],
            ends[piece],
            pauses[piece],
        )
        for piece in sequence
    ]
    right, weighted = _right(wire, ends)
    return Laid(
        slots=tuple(slots),
        lost=tuple(slots[place] for place in lost),
        right_us=tuple(right),
        cost=(len(lost), max(right, default=0), weighted),
    )


def cost_of(wire: Wire, sequence: Sequence[int]) -> Cost:
    """The same as `lay(wire, sequence).cost`, a little sooner."""
    _, ends, _, lost = _times(wire, sequence)
    right, weighted = _right(wire, ends)
    return len(lost), max(right, default=0), weighted


def _right(wire: Wire, ends: list[int]) -> tuple[list[int], int]:
    """When each job is right, from when its pieces end; and the weighted sum."""
    load, tail, weight = wire.load, wire.tail, wire.weight
    right, weighted, first = [], 0, 0
    for end in wire.first[1:]:
        moment = 0
        if end > first:
            last = end - 1
            moment = ends[last]
            if load[last] and ends[first] + load[last] > moment:
                moment = ends[first] + load[last]
            moment += tail[last]
            weighted += weight[last] * moment
        right.append(moment)
        first = end
    return right, weighted


def _times(
    wire: Wire, sequence: Sequence[int]
) -> tuple[list[int], list[int], list[int], list[int]]:
    """By piece: start, end and the pause before it; and the places of the lost ones."""
    full, kept, statuses = wire.full, wire.kept, wire.status
    before, lag, deaf, root = wire.before, wire.lag, wire.deaf, wire.root
    starts, pauses = [0] * len(full), [0] * len(full)
    ends = [0] * (len(full) + 1)
    lost = []
    clock, status, left = 0, NOTHING, most_pauses(wire.means)
    step = wire.means.pauses.step_us if wire.means.pauses else 1
    for place, piece in enumerate(sequence):
        ready = max(ends[before[piece]] + lag[piece], ends[root[piece]] + deaf[piece])
        if ready > clock and left:
            status = status if wire.means.idle_keeps_status else NOTHING
            if left < NO_LIMIT:
                here = _Here(clock, status, ends, left)
                pauses[piece], left = _pause(wire, sequence[place:], here)
            else:
                pauses[piece] = -(-(ready - clock) // step) * step
            clock += pauses[piece]
        if ready > clock:
            lost.append(place)
        starts[piece] = clock
        clock += kept[piece] if statuses[piece] == status else full[piece]
        ends[piece], status = clock, statuses[piece]
    return starts, ends, pauses, lost


def _ready(wire: Wire, piece: int, ends: list[int]) -> int:
    """When the piece may start, from when the pieces of its job ended."""
    after_head = ends[wire.root[piece]] + wire.deaf[piece]
    return max(ends[wire.before[piece]] + wire.lag[piece], after_head)


@dataclass(frozen=True, slots=True)
class _Here:
    """A moment between two pieces: the running status, when pieces ended, the pauses left."""

    clock: int
    status: int
    ends: list[int]
    left: int


def _pause(wire: Wire, rest: Sequence[int], here: _Here) -> tuple[int, int]:
    """How long to pause before the first of the rest, and how many pauses are left then."""
    pauses = wire.means.pauses or Pauses()
    each = longest_pause(pauses)
    wanted = _ready(wire, rest[0], here.ends) - here.clock
    pause = -(-wanted // pauses.step_us) * pauses.step_us
    used = -(-pause // each)
    if used < here.left:
        return pause, here.left - used
    wanted = _wait_for_all(wire, rest, here)
    return min(-(-wanted // pauses.step_us) * pauses.step_us, here.left * each), 0


def _wait_for_all(wire: Wire, rest: Sequence[int], here: _Here) -> int:
    """How long to pause so that none of the rest is early whose piece before it has left."""
    ahead = set(rest)
    wanted, clock, status = 0, here.clock, here.status
    for piece in rest:
        if wire.before[piece] not in ahead:
            wanted = max(wanted, _ready(wire, piece, here.ends) - clock)
        clock += wire.kept[piece] if wire.status[piece] == status else wire.full[piece]
        status = wire.status[piece]
    return wanted
