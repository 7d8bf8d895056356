"""The search from the end."""

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.compose.wires import few_jobs, least_cost, middling, odd_jobs
from thruline.compose.backward import search, search_wider
from thruline.compose.bound import least_time
from thruline.compose.jobs import Job, Means
from thruline.compose.lay import cost_of
from thruline.compose.windows import Windows, open_windows, squeezed
from thruline.compose.wire import NO_LIMIT, Wire, wire_of

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


@given(some=odd_jobs, held=st.booleans(), keeps=st.booleans())
@settings(max_examples=100, deadline=None)
def test_whatever_it_is_the_bound_holds(some: list[Job], *, held: bool, keeps: bool) -> None:
    means = Means(programs_first=held, idle_keeps_status=keeps)
    wire, best = wire_of(some, means), least_cost(some, means)[1]
    found = search(open_windows(wire), below_us=best + 1, nodes=ENOUGH)
    assert found.bound_us <= best
    narrow = search(windows_or_open(wire, best + 1), below_us=best + 1, nodes=ENOUGH)
    assert narrow.bound_us == found.bound_us


def windows_or_open(wire: Wire, below_us: int) -> Windows:
    """What can still be, which must not be nothing."""
    windows = squeezed(wire, below_us=below_us)
    assert windows is not None
    return windows


@given(some=st.lists(middling, min_size=5, max_size=8))
@settings(max_examples=25, deadline=None)
def test_narrow_and_open_windows_lead_to_the_same(some: list[Job]) -> None:
    wire = wire_of(some, Means())
    floor = least_time(wire)
    straight = search(open_windows(wire), below_us=NO_LIMIT, nodes=ENOUGH)
    wider = search_wider(wire, below_us=NO_LIMIT, floor_us=floor, nodes=ENOUGH)
    if straight.bound_us and wider.bound_us == wider.end_us:
        assert straight.end_us == wider.end_us


def test_cut_short_it_claims_nothing() -> None:
    some = tuple(Job(head_us=640 + 7 * n, tail_us=900 * n) for n in range(6))
    assert search(open_windows(wire_of(some, Means())), below_us=NO_LIMIT, nodes=0).bound_us == 0
