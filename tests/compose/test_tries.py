"""What a changed sequence costs, held against laying it."""

from dataclasses import replace

from hypothesis import given, settings

from tests.compose.wires import few_jobs, odd_jobs, odd_means, sequences
from thruline.compose.jobs import Job, Means, Pauses
from thruline.compose.lay import cost_of
from thruline.compose.stretches import in_stretches
from thruline.compose.tries import at_will, moments_of, with_pauses, without_pauses
from thruline.compose.wire import wire_of

WAITING = (Means(), Means(pauses=Pauses(step_us=1000)))


@given(some=few_jobs)
@settings(max_examples=40)
def test_the_last_moment_has_the_cost_of_the_whole(some: tuple[Job, ...]) -> None:
    for means in (*WAITING, Means(pauses=None)):
        wire = wire_of(some, means)
        attempt = with_pauses(wire) if means.pauses else without_pauses(wire)
        for sequence in list(sequences(wire))[:10]:
            ends = [0] * (len(wire.job) + 1)
            moments = moments_of(sequence, attempt, ends)
            assert moments[-1][2:] == cost_of(wire, sequence)


@given(some=odd_jobs, means=odd_means)
@settings(max_examples=60, deadline=None)
def test_stretches_cost_what_their_pieces_cost(some: list[Job], means: Means) -> None:
    wire = wire_of(some, replace(means, pauses=None))
    for sequence in list(sequences(wire))[:10]:
        stretches, order = in_stretches(wire, sequence)
        attempt = without_pauses(stretches.wire)
        moments = moments_of(order, attempt, [0] * (len(order) + 1))
        assert moments[-1][2:] == cost_of(wire, sequence)


@given(some=odd_jobs, means=odd_means)
@settings(max_examples=100, deadline=None)
def test_at_will_nothing_takes_longer(some: list[Job], means: Means) -> None:
    """Whatever the controller can do: what loses nothing ends no sooner than at will."""
    wire = wire_of(some, means)
    for sequence in list(sequences(wire))[:10]:
        lost, end_us, weighted_us = cost_of(wire, sequence)
        floor = moments_of(sequence, at_will(wire), [0] * (len(wire.job) + 1))[-1]
        assert lost or (floor[3] <= end_us and floor[4] <= weighted_us)
