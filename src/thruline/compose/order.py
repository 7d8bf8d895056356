"""The best order for a preset's messages, and why nothing can be faster.

First for a controller that pauses at will: the longest-tail rule gives an order and Jackson's bound
a time that nothing beats. Where they do not meet, a search from the end narrows both, and last a
constraint solver, if a proof is wanted. The bound holds for every other controller, too; what those
do in their own way (pauses in steps, few pauses, none) is then settled by moving pieces about.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from thruline.compose.backward import search_wider
from thruline.compose.bound import least_time, surely_lost
from thruline.compose.descent import descend
from thruline.compose.heavy import heavy_first
from thruline.compose.jobs import Effort, Job, Means, Ordered, Pauses, Proof
from thruline.compose.lay import cost_of, lay
from thruline.compose.rule import as_listed, by_longest_tail, heads_first, without_waiting
from thruline.compose.whole import search_all
from thruline.compose.wire import Wire, can_wait, most_pauses, wire_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """How much work an effort is worth, in steps and not in time: the same on every machine."""

    nodes: int
    """Steps of the search from the end, some 20 us each."""
    trials: int
    """Orders tried by moving pieces, some 4 us each."""
    all_orders: int
    """Steps of the search through all orders, some 5 us each."""
    solver: float
    """The solver's limit, in its own units: about seconds."""


LIMITS = {
    Effort.QUICK: Limits(nodes=12, trials=0, all_orders=0, solver=0),
    Effort.FULL: Limits(nodes=4_000, trials=1_000, all_orders=2_000, solver=0),
    Effort.PROVE: Limits(nodes=40_000, trials=10_000, all_orders=20_000, solver=0.25),
}

_FEW_PIECES = 12
"""So many can be tried in all orders."""


def best_order(jobs: Sequence[Job], means: Means, *, effort: Effort = Effort.FULL) -> Ordered:
    """The order that loses least, then ends soonest, then has the least weighted sum.

    What is left is settled by the order of the jobs. The same jobs, means and effort always give
    the same order.
    """
    wire = wire_of(jobs, means)
    if not means.reorder:
        return _ordered(wire, as_listed(wire), _Known(0, Proof.ONLY_ORDER))
    limits = LIMITS[effort]
    free = wire if _at_will(means) else wire_of(jobs, replace(means, pauses=Pauses()))
    sequence, known = _fastest(free, limits)
    if free is wire:
        sequence = _lightest(wire, sequence, limits)
    else:
        sequence = _in_its_own_way(wire, sequence, limits)
        known = _known_of(wire, sequence, known, jobs=jobs)
    return _settled(wire, sequence, known, limits)


@dataclass(frozen=True, slots=True)
class _Known:
    """A time that nothing beats, and how that is known."""

    bound_us: int
    proof: Proof
    """What meeting the bound proves."""
    solver_missing: bool = False


def _at_will(means: Means) -> bool:
    """Whether the controller can pause as often and as long as is wanted, to the microsecond."""
    return can_wait(means) and means.pauses is not None and means.pauses.step_us == 1


def _fastest(free: Wire, limits: Limits) -> tuple[list[int], _Known]:
    """The order that ends soonest, for a controller that pauses at will."""
    sequence, end_us = by_longest_tail(free)
    known = _Known(least_time(free), Proof.BOUND_MET)
    if end_us == known.bound_us:
        return sequence, known
    found = search_wider(free, below_us=end_us, floor_us=known.bound_us, nodes=limits.nodes)
    sequence = _better(free, sequence, found.sequence)
    if found.bound_us > known.bound_us:
        known = _Known(found.bound_us, Proof.SEARCHED_WHOLE)
    if limits.solver and cost_of(free, sequence)[1] > known.bound_us:
        return _solved(free, sequence, known, work=limits.solver)
    return sequence, known


def _solved(
    free: Wire, sequence: list[int], known: _Known, *, work: float
) -> tuple[list[int], _Known]:
    """What the solver makes of it, if it is installed."""
    try:
        from thruline.compose.solver import solve  # noqa: PLC0415 - heavy, and optional
    except ImportError:
        return sequence, replace(known, solver_missing=True)
    end_us = cost_of(free, sequence)[1]
    solved = solve(free, below_us=end_us, floor_us=known.bound_us, work=work)
    if solved.bound_us > known.bound_us:
        known = _Known(solved.bound_us, Proof.SOLVER)
    return _better(free, sequence, solved.sequence), known


def _better(wire: Wire, sequence: list[int], other: list[int] | None) -> list[int]:
    """The other order if it costs less."""
    if other is None or cost_of(wire, other) >= cost_of(wire, sequence):
        return sequence
    return other


def _lightest(wire: Wire, sequence: list[int], limits: Limits) -> list[int]:
    """An order that ends no later and has less of a weighted sum."""
    if not limits.trials:
        return sequence
    until_us = cost_of(wire, sequence)[1]
    sequence = _better(wire, sequence, heavy_first(wire, sequence, until_us=until_us))
    return descend(wire, sequence, trials=limits.trials, whole=True)


def _in_its_own_way(wire: Wire, sequence: list[int], limits: Limits) -> list[int]:
    """The best order for a controller that cannot pause at will."""
    sequence = _better(wire, sequence, heads_first(wire))
    if not most_pauses(wire.means):
        sequence = _better(wire, sequence, without_waiting(wire))
    if limits.trials:
        sequence = descend(wire, sequence, trials=limits.trials, whole=True)
        sequence = descend(wire, sequence, trials=limits.trials, whole=False)
    return sequence


def _known_of(wire: Wire, sequence: list[int], known: _Known, *, jobs: Sequence[Job]) -> _Known:
    """What is known when blocks are lost: that more need not be, and then a bound without lags."""
    lost = cost_of(wire, sequence)[0]
    if not lost:
        return known
    heedless = [
        replace(job, lag_us=0, blocks=tuple(replace(block, lag_us=0) for block in job.blocks))
        for job in jobs
    ]
    bound_us = least_time(wire_of(heedless, replace(wire.means, pauses=Pauses())))
    fewest = not most_pauses(wire.means) and lost == surely_lost(wire)
    return _Known(bound_us, Proof.BOUND_MET if fewest else Proof.NOT_PROVED)


def _settled(wire: Wire, sequence: list[int], known: _Known, limits: Limits) -> Ordered:
    """Try all orders where they are few, and give the answer."""
    sum_proved = False
    countable = wire.waits or not most_pauses(wire.means)
    few = countable and len(sequence) <= _FEW_PIECES
    if few and limits.all_orders:
        cost = cost_of(wire, sequence)
        found = search_all(wire, below=cost, nodes=limits.all_orders)
        sequence, sum_proved = found.sequence or sequence, found.whole
        lost, end_us, _ = cost_of(wire, sequence)
        if sum_proved and (known.proof is Proof.NOT_PROVED or end_us > known.bound_us or lost):
            known = _Known(end_us, Proof.SEARCHED_WHOLE)
    return _ordered(wire, sequence, known, sum_proved=sum_proved)


def _ordered(
    wire: Wire, sequence: list[int], known: _Known, *, sum_proved: bool = False
) -> Ordered:
    laid = lay(wire, sequence)
    _, end_us, weighted_us = laid.cost
    only = known.proof is Proof.ONLY_ORDER
    return Ordered(
        slots=laid.slots,
        lost=laid.lost,
        right_us=laid.right_us,
        makespan_us=end_us,
        weighted_us=weighted_us,
        bound_us=end_us if only else known.bound_us,
        proof=known.proof if only or end_us == known.bound_us else Proof.NOT_PROVED,
        sum_proved=sum_proved or only,
        solver_missing=known.solver_missing,
    )
