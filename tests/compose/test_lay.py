"""A sequence laid on the wire, counted by hand."""

from hypothesis import given, settings

from tests.compose.wires import PROGRAM, block, few_jobs, sequences, stepped
from thruline.compose.jobs import Job, Means, Pauses
from thruline.compose.lay import cost_of, lay
from thruline.compose.wire import wire_of

JOB = Job(head_us=PROGRAM, lag_us=2_000, load_us=0, blocks=(block(),), tail_us=300)


def test_it_waits_until_the_unit_listens() -> None:
    laid = lay(wire_of((JOB,), Means()), [0, 1])
    assert [(slot.start_us, slot.end_us) for slot in laid.slots] == [(0, 640), (2_640, 3_600)]
    assert laid.right_us == (3_900,)
    assert laid.cost == (0, 3_900, 3_900)


def test_without_pauses_it_is_lost() -> None:
    laid = lay(wire_of((JOB,), Means(pauses=None)), [0, 1])
    assert laid.cost[0] == 1
    assert [slot.start_us for slot in laid.lost] == [640]


def test_the_last_pause_waits_for_all_that_follows() -> None:
    means = Means(pauses=Pauses(step_us=1_000, most=1))
    laid = lay(wire_of((JOB, JOB), means), [0, 2, 1, 3])
    assert laid.lost == ()
    assert sum(slot.pause_us > 0 for slot in laid.slots) == 1


@given(some=few_jobs, means=stepped)
@settings(max_examples=50)
def test_pieces_do_not_overlap_and_costs_agree(some: tuple[Job, ...], means: Means) -> None:
    wire = wire_of(some, means)
    for sequence in list(sequences(wire))[:20]:
        laid = lay(wire, sequence)
        ends = [slot.end_us for slot in laid.slots]
        starts = [slot.start_us for slot in laid.slots]
        assert all(end <= start for end, start in zip(ends, starts[1:], strict=False))
        assert cost_of(wire, sequence) == laid.cost
        assert laid.cost[1] == max(laid.right_us)
