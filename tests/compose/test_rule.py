"""Orders made in one go."""

from itertools import permutations

from hypothesis import given
from hypothesis import strategies as st

from tests.compose.wires import few_jobs
from thruline.compose.jobs import Job, Means
from thruline.compose.lay import cost_of
from thruline.compose.rule import as_listed, heads_first, longest_tail_first
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
    assert cost_of(wire, longest_tail_first(wire))[1] == best


@given(some=few_jobs)
def test_each_is_a_whole_order(some: tuple[Job, ...]) -> None:
    wire = wire_of(some, Means())
    for sequence in (longest_tail_first(wire), as_listed(wire), heads_first(wire)):
        assert sorted(sequence) == list(range(len(wire.job)))
        places = {piece: place for place, piece in enumerate(sequence)}
        assert all(places[b] < places[p] for p, b in enumerate(wire.before) if b >= 0)


@given(some=few_jobs)
def test_heads_first_puts_heads_first(some: tuple[Job, ...]) -> None:
    wire = wire_of(some, Means())
    kinds = [wire.block[piece] >= 0 for piece in heads_first(wire)]
    assert kinds == sorted(kinds)
