"""Narrow windows of time: nothing that fits is lost."""

from hypothesis import given, settings

from tests.compose.wires import few_jobs, least_cost
from thruline.compose.jobs import Job, Means
from thruline.compose.windows import squeezed
from thruline.compose.wire import wire_of


@given(some=few_jobs)
@settings(max_examples=60)
def test_what_can_end_before_is_never_denied(some: tuple[Job, ...]) -> None:
    best = least_cost(some, Means())[1]
    wire = wire_of(some, Means())
    assert squeezed(wire, below_us=best + 1) is not None
