"""Jobs laid out as pieces."""

from hypothesis import given

from tests.compose.wires import few_jobs, stepped
from thruline.compose.jobs import Job, Means, Pauses
from thruline.compose.wire import can_wait, wire_of


@given(some=few_jobs, means=stepped)
def test_every_head_and_block_is_one_piece(some: tuple[Job, ...], means: Means) -> None:
    wire = wire_of(some, means)
    heads = sum(job.head_us > 0 for job in some)
    assert len(wire.job) == heads + sum(len(job.blocks) for job in some)
    assert wire.first[-1] == len(wire.job)
    for piece, before in enumerate(wire.before):
        assert before in (-1, piece - 1)
        if before >= 0:
            assert wire.after[before] == piece
            assert wire.job[before] == wire.job[piece]


@given(some=few_jobs)
def test_a_kept_status_never_costs_more(some: tuple[Job, ...]) -> None:
    wire = wire_of(some, Means())
    assert all(kept <= full for kept, full in zip(wire.kept, wire.full, strict=True))
    assert all(rest >= 0 for rest in wire.rest)


def test_who_can_wait() -> None:
    assert can_wait(Means())
    assert can_wait(Means(pauses=Pauses(step_us=5000)))
    assert not can_wait(Means(pauses=None))
    assert not can_wait(Means(pauses=Pauses(step_us=5000, most=2)))
