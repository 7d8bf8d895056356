import pytest

from tests.audit.boards import board, plan
from tests.audit.wide_boards import wide_board
from thruline.audit.fault import Family, Fault
from thruline.audit.meant import meant_by
from thruline.bench.pretend_source import Source
from thruline.proof.case import Case
from thruline.rig.sweep import values_of

MEANT = plan("feet.midi-out")


def test_a_press_sends_what_the_model_says_pauses_included():
    case = Case(board())
    for step in (0, 7):
        assert [*Source(MEANT, ()).step(step)] == [*case.run(case.rig.presets[step]).sending.items]


def test_what_was_not_written_is_sent_as_it_was():
    old = Case(board(changed=(3, 5)))
    sent = [*Source(MEANT, [Fault(Family.STALE, 2)]).step(2)]
    assert [one.data for one in sent] == [
        one.data for one in old.run(old.rig.presets[2]).sending.items
    ]


@pytest.mark.parametrize("turned", [False, True])
def test_a_pedal_gives_every_value_at_its_pace(turned):
    faults = [Fault(Family.REVERSED, MEANT.units.index("b"), 41)] if turned else []
    sent = [*Source(MEANT, faults).step(12)]
    values = values_of(board().sweeps[0].moves[0])
    wanted = [
        value for place, value in enumerate(values) if place == 0 or value != values[place - 1]
    ]
    assert [one.data[2] for one in sent] == (wanted[::-1] if turned else wanted)
    assert sent[0].pause_us == 0
    assert {one.pause_us for one in sent[1:]} <= {10_000, 20_000}


def test_a_recall_sends_where_the_pedal_was_left():
    meant = meant_by(Case(wide_board(on_recall=True)), ["feet.midi-out"])
    source = Source(meant, ())
    fresh = [one.data for one in source.step(0)]
    list(source.step(meant.presets))
    later = [one.data for one in source.step(0)]
    assert fresh != later
    assert len(fresh) == len(later)
