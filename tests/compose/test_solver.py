"""The last proof, by a constraint solver."""

import pytest
from hypothesis import given, settings

from tests.compose.wires import few_jobs, least_cost
from thruline.compose.jobs import Job, Means
from thruline.compose.lay import cost_of
from thruline.compose.wire import wire_of

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
