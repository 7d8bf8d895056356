from hypothesis import given
from hypothesis import strategies as st

from tests.rigs import make_line
from tests.timing.played import control, full_chart, ground_of, program, run_over
from thruline.timing.captured import Heard, Tap, captured_of
from thruline.timing.picture import Told, picture_of
from thruline.timing.trail import play_sending

ITEMS = (program("unit-1", 1), control("unit-1", 1), control("unit-2", 5))


def captured(*heard):
    ground = ground_of(make_line(2, **full_chart()))
    run = run_over(ground, *ITEMS)
    trails = play_sending(run.sending, ground)
    line = ground.roads.starts[0]
    ends = trails.flows[line].end_us.tolist()
    picture = picture_of(run, ground, Told())
    taps = [Tap(line, 0)]
    return captured_of(picture, trails, taps=taps, heard=[one(ends) for one in heard]), picture


def at(place, late_us=0, data=None):
    return lambda ends: Heard(
        9_000 + ends[place] + late_us, 0, ITEMS[place].data if data is None else data
    )


def test_what_comes_as_computed_lies_over_it():
    found, picture = captured(at(0), at(1), at(2))
    assert [one.off_us for one in found.pairs] == [0, 0, 0]
    assert found.falls == picture.falls
    assert found.missing == found.strays == ()


def test_times_count_from_the_first_that_came():
    found, _ = captured(at(0, 500), at(1, 500), at(2, 800))
    assert [one.off_us for one in found.pairs] == [0, 0, 300]


def test_what_did_not_come_and_what_is_not_planned():
    found, _ = captured(at(0), at(1, data=b"\xb9\x01\x02"), at(2))
    assert [one.off_us for one in found.pairs].count(None) == 2
    assert len(found.missing) == len(found.strays) == 1
    assert {fall.message for fall in found.falls} == {0, 2}


def test_nothing_planned_at_all():
    found, _ = captured(at(0, data=b"\xb9\x01\x02"))
    assert found.strays[0].us == 0
    assert len(found.missing) == 3


@given(st.lists(st.integers(0, 2), max_size=6), st.integers(0, 10**6))
def test_everything_heard_and_everything_computed_is_in_it_once(places, late_us):
    found, _ = captured(*(at(place, late_us) for place in places))
    assert sum(one.heard_us is not None for one in found.pairs) == len(places)
    computed = [one.message for one in found.pairs if one.message is not None]
    assert sorted(computed) == [0, 1, 2]
    moments = [one.computed_us for one in found.pairs if one.computed_us is not None]
    assert moments == sorted(moments)
