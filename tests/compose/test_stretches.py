"""Blocks that stay together, taken as one piece."""

from hypothesis import given

from tests.compose.wires import few_jobs
from thruline.compose.jobs import Job, Means
from thruline.compose.rule import by_longest_tail
from thruline.compose.stretches import in_stretches
from thruline.compose.wire import wire_of


@given(some=few_jobs)
def test_together_and_apart_again(some: tuple[Job, ...]) -> None:
    wire = wire_of(some, Means())
    sequence = by_longest_tail(wire)[0]
    stretches, order = in_stretches(wire, sequence)
    assert stretches.apart(order) == sequence
    assert len(order) <= len(sequence)
    assert sum(stretches.wire.full) <= sum(wire.full)
