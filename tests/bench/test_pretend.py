import random

from hypothesis import given
from hypothesis import strategies as st

from tests.audit.boards import board, plan
from thruline.audit.capture import Came, NoteKind
from thruline.bench.pretend import Trouble, pretend_capture
from thruline.proof.case import Case

MEANT = plan("feet.midi-out")


def data_of(capture):
    return [one.data for one in capture.entries if isinstance(one, Came)]


def test_it_sends_what_the_model_says_in_its_order():
    case = Case(board())
    capture = pretend_capture(MEANT, pressed=[3])
    assert data_of(capture) == [one.data for one in case.run(case.rig.presets[3]).sending.items]
    assert [one.kind for one in capture.notes] == [NoteKind.PRESS]


def test_a_travel_goes_from_heel_to_toe():
    values = [data[2] for data in data_of(pretend_capture(MEANT, pressed=[12]))]
    assert (values[0], values[-1]) == (10, 100)
    assert values == sorted(values)


@given(st.integers(0, 1000))
def test_time_runs_forward_at_the_speed_of_the_line(seed):
    trouble = Trouble(lost=0.1, garbled=0.1, strays=1.5)
    capture = pretend_capture(plan(), trouble=trouble, chance=random.Random(seed).random)
    last = dict.fromkeys(range(1, 3), 0)
    times = [one.at_us for one in capture.entries]
    assert times == sorted(times)
    for one in capture.entries:
        if isinstance(one, Came):
            assert one.at_us - last[one.line] >= 320 * len(one.data)
            last[one.line] = one.at_us


def test_chance_can_be_had_again():
    trouble = Trouble(lost=0.3)
    one, same, other = (
        pretend_capture(MEANT, trouble=trouble, chance=random.Random(seed).random)
        for seed in (1, 1, 2)
    )
    assert one == same != other
    assert len(data_of(one)) < len(data_of(pretend_capture(MEANT)))
