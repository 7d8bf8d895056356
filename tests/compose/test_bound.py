"""Times and losses that no order can beat."""

from hypothesis import given, settings

from tests.compose.wires import CONTROL, KEPT, block, few_jobs, least_cost
from thruline.compose.bound import earliest, least_time, preemptive, surely_lost
from thruline.compose.jobs import Job, Means
from thruline.compose.wire import wire_of


@given(some=few_jobs)
@settings(max_examples=60)
def test_no_order_ends_before_the_bound(some: tuple[Job, ...]) -> None:
    assert least_time(wire_of(some, Means())) <= least_cost(some, Means())[1]


@given(some=few_jobs)
def test_the_bound_contains_the_wire_time(some: tuple[Job, ...]) -> None:
    wire = wire_of(some, Means())
    assert least_time(wire) >= sum(wire.least)
    assert all(start >= 0 for start in earliest(wire))


@given(some=few_jobs)
@settings(max_examples=60)
def test_what_is_surely_lost_is_lost_in_every_order(some: tuple[Job, ...]) -> None:
    means = Means(pauses=None)
    assert surely_lost(wire_of(some, means)) <= least_cost(some, means)[0]


def test_jacksons_schedule_by_hand() -> None:
    assert preemptive([]) == 0
    assert preemptive([(0, -500, 100)]) == 600
    assert preemptive([(0, -500, 100), (0, -50, 100)]) == 600
    assert preemptive([(0, 0, 300), (100, -900, 100)]) == 1100


def test_the_earliest_starts_of_a_job_by_itself() -> None:
    job = Job(head_us=640, lag_us=5_000, blocks=(block(), block(1_500), block()))
    starts = earliest(wire_of((job,), Means()))
    assert starts[:2] == [0, 640 + 5_000]
    assert starts[2] >= starts[1] + CONTROL + 1_500 - (CONTROL - KEPT)
    assert starts[3] == starts[2] + wire_of((job,), Means()).least[2]
