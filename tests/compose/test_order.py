"""The best order, held against all orders."""

import pytest
from hypothesis import given, settings

from tests.compose.wires import CONTROL, KEPT, PROGRAM, block, few_jobs, least_cost, stepped
from thruline.compose.jobs import Effort, Job, Means, Pauses, Proof
from thruline.compose.lay import lay
from thruline.compose.order import best_order
from thruline.compose.wire import wire_of


@given(some=few_jobs, means=stepped)
@settings(max_examples=60)
def test_with_a_proof_nothing_is_better(some: tuple[Job, ...], means: Means) -> None:
    found = best_order(some, means, effort=Effort.PROVE)
    lost, end, _ = least_cost(some, means)
    assert (len(found.lost), found.makespan_us) >= (lost, end)
    if found.proved:
        assert (len(found.lost), found.makespan_us) == (lost, end)


@given(some=few_jobs)
@settings(max_examples=60)
def test_a_controller_that_pauses_at_will_is_always_settled(some: tuple[Job, ...]) -> None:
    found = best_order(some, Means(), effort=Effort.PROVE)
    assert found.proved
    assert found.bound_us == found.makespan_us == least_cost(some, Means())[1]


@given(some=few_jobs, means=stepped)
def test_the_bound_is_never_above(some: tuple[Job, ...], means: Means) -> None:
    for effort in (Effort.QUICK, Effort.FULL):
        found = best_order(some, means, effort=effort)
        if not found.lost:
            assert found.bound_us <= found.makespan_us


@given(some=few_jobs, means=stepped)
def test_the_same_jobs_give_the_same_order(some: tuple[Job, ...], means: Means) -> None:
    assert best_order(some, means) == best_order(some, means)


def test_a_short_wait_can_beat_the_rule() -> None:
    slow = Job(head_us=PROGRAM, lag_us=2_000, load_us=0, blocks=(block(),), tail_us=1_000)
    quick = Job(head_us=PROGRAM, lag_us=1_000, load_us=0, blocks=(block(),), tail_us=0)
    found = best_order((slow, quick), Means(), effort=Effort.PROVE)
    assert found.makespan_us == 4_600
    assert found.proved


def test_heads_alone_go_by_their_tails() -> None:
    some = tuple(Job(head_us=PROGRAM, tail_us=tail) for tail in (100, 900, 500))
    found = best_order(some, Means())
    assert [slot.job for slot in found.slots] == [1, 2, 0]
    assert found.proof is Proof.BOUND_MET


def test_pauses_are_whole_steps() -> None:
    job = Job(head_us=PROGRAM, lag_us=7_300, load_us=0, blocks=(block(),))
    found = best_order((job,), Means(pauses=Pauses(step_us=5_000)))
    assert [slot.pause_us for slot in found.slots] == [0, 10_000]


def test_without_pauses_others_fill_the_gap() -> None:
    slow = Job(head_us=PROGRAM, lag_us=2_000, load_us=0, blocks=(block(),))
    others = tuple(Job(head_us=PROGRAM) for _ in range(4))
    found = best_order((slow, *others), Means(pauses=None))
    assert found.lost == ()
    assert [slot.job for slot in found.slots][-1] == 0


def test_without_pauses_and_others_it_is_lost() -> None:
    job = Job(head_us=PROGRAM, lag_us=2_000, load_us=0, blocks=(block(),))
    found = best_order((job,), Means(pauses=None))
    assert [slot.block for slot in found.lost] == [0]


def test_a_fixed_order_is_only_looked_at() -> None:
    some = (Job(head_us=PROGRAM, tail_us=1), Job(head_us=PROGRAM, tail_us=9_000))
    found = best_order(some, Means(reorder=False))
    assert [slot.job for slot in found.slots] == [0, 1]
    assert found.proof is Proof.ONLY_ORDER


@pytest.mark.parametrize("effort", list(Effort))
def test_nothing_to_send_is_right_at_once(effort: Effort) -> None:
    found = best_order((), Means(), effort=effort)
    assert (found.slots, found.makespan_us, found.gap) == ((), 0, 0.0)


def test_the_slots_are_what_the_wire_carries() -> None:
    job = Job(head_us=PROGRAM, lag_us=500, load_us=0, blocks=(block(), block()))
    found = best_order((job,), Means())
    assert [slot.end_us - slot.start_us for slot in found.slots] == [PROGRAM, CONTROL, KEPT]
    wire = wire_of((job,), Means())
    assert lay(wire, [0, 1, 2]).slots == found.slots
