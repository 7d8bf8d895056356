"""The best order, held against all orders."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.compose.replay import played
from tests.compose.wires import (
    CONTROL,
    KEPT,
    PROGRAM,
    block,
    few_jobs,
    least_cost,
    odd_jobs,
    odd_means,
    stepped,
)
from thruline.compose.jobs import Effort, Job, Means, Pauses, Proof
from thruline.compose.lay import lay
from thruline.compose.order import best_order
from thruline.compose.wire import NO_LIMIT, wire_of


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


@given(some=odd_jobs, means=odd_means, effort=st.sampled_from(list(Effort)))
@settings(max_examples=150, deadline=None)
def test_whatever_it_is_a_replay_finds_the_same(
    some: list[Job], means: Means, effort: Effort
) -> None:
    found = best_order(some, means, effort=effort)
    seen = played(some, means, found.slots)
    assert seen.times == [(slot.start_us, slot.end_us) for slot in found.slots]
    assert tuple(seen.lost) == found.lost
    assert tuple(seen.right_us) == found.right_us
    assert max(seen.right_us) == found.makespan_us
    assert found.weighted_us == sum(
        job.weight * time for job, time in zip(some, seen.right_us, strict=True)
    )


@given(some=odd_jobs, means=odd_means, effort=st.sampled_from(list(Effort)))
@settings(max_examples=150, deadline=None)
def test_whatever_it_is_what_is_claimed_is_true(
    some: list[Job], means: Means, effort: Effort
) -> None:
    found = best_order(some, replace(means, reorder=True), effort=effort)
    lost, end, weighted = least_cost(some, replace(means, reorder=True))
    assert (len(found.lost), found.makespan_us) >= (lost, end)
    if found.proved:
        assert (len(found.lost), found.makespan_us) == (lost, end)
    if len(found.lost) == lost:
        assert found.bound_us <= end
    if found.sum_proved:
        assert found.weighted_us == weighted


@given(some=odd_jobs, means=odd_means)
@settings(max_examples=80, deadline=None)
def test_a_controller_does_only_what_it_can(some: list[Job], means: Means) -> None:
    found = best_order(some, means)
    heads_last = [slot.block is not None for slot in found.slots]
    if means.programs_first:
        assert heads_last == sorted(heads_last)
    if not means.reorder and not means.programs_first:
        assert [slot.job for slot in found.slots] == sorted(slot.job for slot in found.slots)
    waits = [slot.pause_us for slot in found.slots if slot.pause_us]
    if means.pauses is None:
        assert not waits
    else:
        assert all(wait % means.pauses.step_us == 0 for wait in waits)
        longest = means.pauses.longest_us or NO_LIMIT
        if means.pauses.most is not None:
            each = longest // means.pauses.step_us * means.pauses.step_us
            assert sum(-(-wait // each) for wait in waits) <= means.pauses.most


@given(some=odd_jobs, means=odd_means)
@settings(max_examples=50, deadline=None)
def test_more_effort_is_never_worse(some: list[Job], means: Means) -> None:
    found = [best_order(some, means, effort=effort) for effort in Effort]
    costs = [(len(one.lost), one.makespan_us) for one in found]
    assert costs == sorted(costs, reverse=True)


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
