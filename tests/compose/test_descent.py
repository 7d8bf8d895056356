"""Better orders by moving one piece at a time."""

import pytest
from hypothesis import given, settings

from tests.compose.wires import few_jobs, stepped
from thruline.compose.descent import descend
from thruline.compose.jobs import Job, Means
from thruline.compose.lay import cost_of
from thruline.compose.rule import by_longest_tail, heads_first
from thruline.compose.wire import wire_of


@pytest.mark.parametrize("whole", [True, False])
@given(some=few_jobs, means=stepped)
@settings(max_examples=40)
def test_it_never_costs_more(some: tuple[Job, ...], means: Means, *, whole: bool) -> None:
    wire = wire_of(some, means)
    for start in (by_longest_tail(wire)[0], heads_first(wire)):
        better = descend(wire, start, trials=60, whole=whole)
        assert sorted(better) == list(range(len(wire.job)))
        assert cost_of(wire, better) <= cost_of(wire, start)


@given(some=few_jobs)
def test_the_same_chance_every_time(some: tuple[Job, ...]) -> None:
    wire = wire_of(some, Means())
    start = heads_first(wire)
    first = descend(wire, start, trials=60, whole=False)
    assert descend(wire, start, trials=60, whole=False) == first
