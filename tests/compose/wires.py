"""Small sets of jobs, and a plain way to find what is best for them."""

from collections.abc import Iterator, Sequence

from hypothesis import strategies as st

from thruline.base.measures import BYTE_US
from thruline.compose.jobs import Block, Job, Means, Pauses
from thruline.compose.lay import Cost, cost_of
from thruline.compose.wire import Wire, wire_of

CONTROL, KEPT, PROGRAM = 960, 640, 640
MOST_PIECES = 7


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
    """Every order in which the pieces of each job keep theirs, and that the controller can send."""
    spans = list(zip(wire.first, wire.first[1:], strict=False))
    heads = [piece for piece, block in enumerate(wire.block) if block < 0]
    held = heads if wire.means.programs_first else []

    def grow(done: list[int], following: list[int]) -> Iterator[list[int]]:
        if len(done) == len(wire.job):
            yield done
        for job, (_, end) in enumerate(spans):
            piece = following[job]
            fits = len(done) >= len(held) or piece == held[len(done)]
            if piece < end and fits:
                further = [*following]
                further[job] += 1
                yield from grow([*done, piece], further)

    yield from grow([], [first for first, _ in spans])


def least_cost(some: Sequence[Job], means: Means) -> Cost:
    """What the best of all orders costs."""
    wire = wire_of(some, means)
    return min(cost_of(wire, sequence) for sequence in sequences(wire))


def odd_block(lag_us: int, kept_us: int) -> Block:
    """One or several messages in one go; running status saves one byte of them."""
    return Block(full_us=kept_us + BYTE_US, kept_us=kept_us, lag_us=lag_us)


odd_blocks = st.builds(
    odd_block,
    st.sampled_from([0, 0, 0, 100, 900, 4_000]),
    st.sampled_from([BYTE_US, KEPT, 2 * KEPT]),
)
odd_jobs = st.lists(
    st.builds(
        Job,
        head_us=st.sampled_from([0, 0, PROGRAM, PROGRAM + CONTROL + KEPT]),
        lag_us=st.sampled_from([0, 500, 1_000, 2_000, 3_300, 5_000]),
        load_us=st.sampled_from([0, 0, 2_000, 6_000]),
        blocks=st.lists(odd_blocks, max_size=3).map(tuple),
        tail_us=st.sampled_from([0, 100, 700, 2_500]),
        weight=st.integers(0, 3),
    ),
    min_size=1,
    max_size=4,
).filter(lambda some: sum((job.head_us > 0) + len(job.blocks) for job in some) <= MOST_PIECES)
"""Whatever can be said of jobs, down to one that has nothing to send."""

pauses = st.one_of(
    st.none(),
    st.just(Pauses()),
    st.builds(
        Pauses,
        step_us=st.sampled_from([1, 320, 1_000, 3_000]),
        longest_us=st.sampled_from([None, 500, 2_000, 9_000]),
        most=st.sampled_from([None, None, 0, 1, 2]),
    ),
)
odd_means = st.builds(
    Means,
    reorder=st.sampled_from([True, True, True, False]),
    programs_first=st.booleans(),
    pauses=pauses,
    idle_keeps_status=st.booleans(),
)

middling = st.builds(
    Job,
    head_us=st.sampled_from([0, PROGRAM, PROGRAM, PROGRAM + CONTROL + KEPT]),
    lag_us=st.integers(2_000, 20_000),
    blocks=st.lists(blocks, min_size=1, max_size=6).map(tuple),
    tail_us=st.integers(0, 6_000),
)
"""A unit as boards have them, for more than can be tried in all orders."""
