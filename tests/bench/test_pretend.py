import random

from hypothesis import given
from hypothesis import strategies as st

from tests.audit.boards import board, plan
from thruline.audit.capture import Came, NoteKind
from thruline.audit.meant import meant_by
from thruline.bench.pretend import Trouble, pretend_capture
from thruline.proof.case import Case
from thruline.wiring import demo_texts, open_sample

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


def test_it_comes_when_the_model_says_and_a_pause_is_heard():
    case = Case(open_sample(demo_texts()[1], "demo").rig)
    meant = meant_by(case, ("echo.midi-in", "feet.midi-out-1"))
    capture = pretend_capture(meant, pressed=[6])
    run = case.run(case.rig.presets[6])
    heard = [(one.at_us, one.data) for one in capture.entries if isinstance(one, Came)]
    for one in run.heard["echo"]:
        assert (one.arrival.end_us, one.arrival.data) in heard
    pauses = [item.pause_us for item in run.sending.items]
    times = [one.at_us for one in capture.entries if isinstance(one, Came) and one.line == 2]
    assert max(pauses) > 0
    place = pauses.index(max(pauses))
    assert times[place] - times[place - 1] >= max(pauses)


def test_bytes_can_be_lost_one_by_one():
    whole, thinned = (
        b"".join(data_of(pretend_capture(MEANT, trouble=one, chance=random.Random(3).random)))
        for one in (Trouble(), Trouble(dropped=0.1))
    )
    assert 0.8 < len(thinned) / len(whole) < 0.97
