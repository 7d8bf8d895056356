"""The last proof, by a constraint solver."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.compose.wires import PROGRAM, block, few_jobs, least_cost, middling
from thruline.compose.backward import search_wider
from thruline.compose.bound import least_time
from thruline.compose.jobs import Job, Means
from thruline.compose.lay import cost_of
from thruline.compose.wire import NO_LIMIT, wire_of

solver = pytest.importorskip("thruline.compose.solver", reason="OR-Tools is an extra")


@given(some=few_jobs)
@settings(max_examples=8)
def test_it_finds_the_best_and_nothing_below(some: tuple[Job, ...]) -> None:
    wire = wire_of(some, Means())
    best = least_cost(some, Means())[1]
    found = solver.solve(wire, below_us=best + 1, floor_us=0, work=1.0)
    assert found.sequence is not None
    assert cost_of(wire, found.sequence)[1] == best
    nothing = solver.solve(wire, below_us=best, floor_us=0, work=1.0)
    assert nothing.sequence is None
    assert nothing.bound_us == best


@given(some=st.lists(middling, min_size=4, max_size=7))
@settings(max_examples=15, deadline=None)
def test_it_knows_nothing_better_than_the_search(some: list[Job]) -> None:
    wire = wire_of(some, Means())
    floor = least_time(wire)
    found = search_wider(wire, below_us=NO_LIMIT, floor_us=floor, nodes=4_000)
    if found.bound_us == found.end_us:
        solved = solver.solve(wire, below_us=found.end_us, floor_us=0, work=0.2)
        assert solved.sequence is None


def test_heads_that_must_leave_first_do() -> None:
    some = [Job(head_us=PROGRAM, lag_us=4_000, blocks=(block(),), tail_us=n) for n in range(3)]
    wire = wire_of(some, Means(programs_first=True))
    best = least_cost(some, wire.means)[1]
    solved = solver.solve(wire, below_us=best + 500, floor_us=0, work=1.0)
    assert solved.sequence is not None
    assert solved.sequence[:3] == [0, 2, 4]
    assert solved.bound_us == best
