"""Orders made in one go."""

from itertools import permutations

from hypothesis import given
from hypothesis import strategies as st

from tests.compose.wires import PROGRAM, block, few_jobs, odd_jobs
from thruline.compose.jobs import Job, Means
from thruline.compose.lay import cost_of
from thruline.compose.rule import (
    as_listed,
    by_longest_tail,
    heads_first,
    without_waiting,
)
from thruline.compose.wire import wire_of

heads = st.lists(
    st.builds(Job, head_us=st.integers(320, 3_000), tail_us=st.integers(0, 9_000)),
    min_size=1,
    max_size=5,
)


@given(some=heads)
def test_without_controls_nothing_beats_the_rule(some: list[Job]) -> None:
    wire = wire_of(some, Means())
    best = min(cost_of(wire, list(one))[1] for one in permutations(range(len(some))))
    assert cost_of(wire, by_longest_tail(wire)[0])[1] == best


@given(some=few_jobs)
def test_each_is_a_whole_order(some: tuple[Job, ...]) -> None:
    wire = wire_of(some, Means())
    for sequence in (by_longest_tail(wire)[0], as_listed(wire), heads_first(wire)):
        assert sorted(sequence) == list(range(len(wire.job)))
        places = {piece: place for place, piece in enumerate(sequence)}
        assert all(places[b] < places[p] for p, b in enumerate(wire.before) if b >= 0)


@given(some=odd_jobs, keeps=st.booleans(), held=st.booleans())
def test_the_rule_knows_when_it_ends(some: list[Job], *, keeps: bool, held: bool) -> None:
    wire = wire_of(some, Means(idle_keeps_status=keeps, programs_first=held))
    sequence, end = by_longest_tail(wire)
    assert cost_of(wire, sequence)[1] == end


@given(some=few_jobs)
def test_heads_first_puts_heads_first(some: tuple[Job, ...]) -> None:
    wire = wire_of(some, Means())
    kinds = [wire.block[piece] >= 0 for piece in heads_first(wire)]
    assert kinds == sorted(kinds)


@given(some=odd_jobs)
def test_what_cannot_wait_is_sent_whole(some: list[Job]) -> None:
    wire = wire_of(some, Means(pauses=None))
    assert sorted(without_waiting(wire)) == list(range(len(wire.job)))


def test_a_deaf_unit_is_given_up_for_others() -> None:
    deaf = Job(head_us=PROGRAM, lag_us=90_000, blocks=(block(),) * 4)
    short = Job(head_us=PROGRAM, lag_us=2_500, blocks=(block(),) * 4)
    wire = wire_of([short, deaf], Means(pauses=None))
    assert cost_of(wire, without_waiting(wire))[0] == len(deaf.blocks)
    assert cost_of(wire, by_longest_tail(wire)[0])[0] > len(deaf.blocks)
