"""The search from the end."""

from hypothesis import given, settings

from tests.compose.wires import few_jobs, least_cost
from thruline.compose.backward import search, search_wider
from thruline.compose.bound import least_time
from thruline.compose.jobs import Job, Means
from thruline.compose.lay import cost_of
from thruline.compose.windows import open_windows
from thruline.compose.wire import NO_LIMIT, wire_of

ENOUGH = 20_000


@given(some=few_jobs)
@settings(max_examples=60)
def test_it_finds_the_best_and_proves_it(some: tuple[Job, ...]) -> None:
    wire = wire_of(some, Means())
    best = least_cost(some, Means())[1]
    found = search(open_windows(wire), below_us=NO_LIMIT, nodes=ENOUGH)
    assert found.sequence is not None
    assert cost_of(wire, found.sequence)[1] == best
    assert found.bound_us == best


@given(some=few_jobs)
@settings(max_examples=60)
def test_in_windows_it_finds_the_same(some: tuple[Job, ...]) -> None:
    wire = wire_of(some, Means())
    floor = least_time(wire)
    found = search_wider(wire, below_us=NO_LIMIT, floor_us=floor, nodes=ENOUGH)
    assert found.bound_us == least_cost(some, Means())[1]


@given(some=few_jobs)
def test_nothing_below_the_best(some: tuple[Job, ...]) -> None:
    best = least_cost(some, Means())[1]
    found = search(open_windows(wire_of(some, Means())), below_us=best, nodes=ENOUGH)
    assert found.sequence is None
    assert found.bound_us == best


def test_cut_short_it_claims_nothing() -> None:
    some = tuple(Job(head_us=640 + 7 * n, tail_us=900 * n) for n in range(6))
    assert search(open_windows(wire_of(some, Means())), below_us=NO_LIMIT, nodes=0).bound_us == 0
