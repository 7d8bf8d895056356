"""All orders, for a few pieces."""

from hypothesis import given, settings

from tests.compose.wires import few_jobs, least_cost, stepped
from thruline.compose.jobs import Job, Means
from thruline.compose.lay import cost_of
from thruline.compose.whole import search_all
from thruline.compose.wire import NO_LIMIT, wire_of

ENOUGH = 50_000


@given(some=few_jobs, means=stepped)
@settings(max_examples=50)
def test_it_settles_losses_time_and_sum(some: tuple[Job, ...], means: Means) -> None:
    wire = wire_of(some, means)
    found = search_all(wire, below=(NO_LIMIT, NO_LIMIT, NO_LIMIT), nodes=ENOUGH)
    assert found.whole
    assert found.sequence is not None
    assert cost_of(wire, found.sequence) == least_cost(some, means)


def test_cut_short_it_claims_nothing() -> None:
    some = tuple(Job(head_us=640, tail_us=n) for n in range(5))
    found = search_all(wire_of(some, Means()), below=(NO_LIMIT, NO_LIMIT, NO_LIMIT), nodes=2)
    assert not found.whole
