"""An order with a small weighted sum that still ends in time."""

from hypothesis import given

from tests.compose.wires import few_jobs
from thruline.compose.heavy import heavy_first
from thruline.compose.jobs import Job, Means
from thruline.compose.lay import cost_of
from thruline.compose.rule import by_longest_tail
from thruline.compose.wire import NO_LIMIT, wire_of


@given(some=few_jobs)
def test_it_is_a_whole_order_that_ends_in_time(some: tuple[Job, ...]) -> None:
    wire = wire_of(some, Means())
    rule = by_longest_tail(wire)[0]
    until = cost_of(wire, rule)[1]
    for limit in (until, NO_LIMIT):
        found = heavy_first(wire, rule, until_us=limit)
        if found is not None:
            assert sorted(found) == list(range(len(wire.job)))
            assert cost_of(wire, found)[1] <= limit
