"""Small sets of jobs, and a plain way to find what is best for them."""

from collections.abc import Iterator, Sequence

from hypothesis import strategies as st

from thruline.compose.jobs import Block, Job, Means, Pauses
from thruline.compose.lay import Cost, cost_of
from thruline.compose.wire import Wire, wire_of

CONTROL, KEPT, PROGRAM = 960, 640, 640


def block(lag_us: int = 0) -> Block:
    """A control change."""
    return Block(full_us=CONTROL, kept_us=KEPT, lag_us=lag_us)


blocks = st.builds(block, st.sampled_from([0, 0, 0, 1500]))
jobs = st.builds(
    Job,
    head_us=st.sampled_from([0, PROGRAM, PROGRAM + 2 * CONTROL]),
    lag_us=st.integers(0, 6_000),
    load_us=st.integers(0, 6_000),
    blocks=st.lists(blocks, min_size=1, max_size=2).map(tuple),
    tail_us=st.integers(0, 4_000),
    weight=st.integers(1, 3),
)
few_jobs = st.lists(jobs, min_size=1, max_size=3).map(tuple)
stepped = st.sampled_from([Means(), Means(pauses=Pauses(step_us=1000)), Means(pauses=None)])


def sequences(wire: Wire) -> Iterator[list[int]]:
    """Every order in which the pieces of each job keep theirs."""
    spans = list(zip(wire.first, wire.first[1:], strict=False))

    def grow(done: list[int], following: list[int]) -> Iterator[list[int]]:
        if len(done) == len(wire.job):
            yield done
        for job, (_, end) in enumerate(spans):
            if following[job] < end:
                further = [*following]
                further[job] += 1
                yield from grow([*done, following[job]], further)

    yield from grow([], [first for first, _ in spans])


def least_cost(some: Sequence[Job], means: Means) -> Cost:
    """What the best of all orders costs."""
    wire = wire_of(some, means)
    return min(cost_of(wire, sequence) for sequence in sequences(wire))
