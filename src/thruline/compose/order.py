"""The best order for a preset's messages, and why nothing can be faster."""

from collections.abc import Sequence

from thruline.compose.backward import search
from thruline.compose.bound import least_time
from thruline.compose.jobs import Effort, Job, Means, Ordered, Proof
from thruline.compose.lay import Laid, lay
from thruline.compose.rule import as_listed, longest_tail_first
from thruline.compose.wire import can_wait, wire_of

STEPS = {Effort.QUICK: 40, Effort.FULL: 3_000, Effort.PROVE: 200_000}
"""Steps of the search by effort; a step takes some microseconds."""


def best_order(jobs: Sequence[Job], means: Means, *, effort: Effort = Effort.FULL) -> Ordered:
    """The order that loses least, then ends earliest; the same jobs always give the same order."""
    wire = wire_of(jobs, means)
    if not means.reorder:
        laid = lay(wire, as_listed(wire))
        return _answer(laid, bound=laid.cost[1], proof=Proof.ONLY_ORDER)
    laid = lay(wire, longest_tail_first(wire))
    bound = least_time(wire)
    if laid.cost[:2] == (0, bound):
        return _answer(laid, bound=bound, proof=Proof.BOUND_MET)
    if can_wait(means):
        found = search(wire, below_us=laid.cost[1], nodes=STEPS[effort])
        if found.sequence is not None:
            laid = min(laid, lay(wire, found.sequence), key=_cost)
        bound = max(bound, found.bound_us)
        if laid.cost[:2] == (0, bound):
            return _answer(laid, bound=bound, proof=Proof.SEARCHED_WHOLE)
    return _answer(laid, bound=min(bound, laid.cost[1]), proof=Proof.NOT_PROVED)


def _cost(laid: Laid) -> tuple[int, int, int]:
    return laid.cost


def _answer(laid: Laid, *, bound: int, proof: Proof) -> Ordered:
    return Ordered(
        slots=laid.slots,
        lost=laid.lost,
        right_us=laid.right_us,
        makespan_us=laid.cost[1],
        weighted_us=laid.cost[2],
        bound_us=bound,
        proof=proof,
    )
