import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.opening import open_text
from tests.samples.reading import ORCHARD
from thruline.bench.travel import Treadle, travel
from thruline.rig.sweep import values_of
from thruline.wiring import open_file

RIG = open_file(ORCHARD).rig
SWEEP = RIG.sweeps[0]


@given(st.lists(st.integers(-20, 150), min_size=1, max_size=20))
def test_every_control_ends_where_the_pedal_stands(places):
    treadle = Treadle(RIG, SWEEP)
    last = {}
    for place in places:
        items = treadle.move_to(place)
        last |= {(item.unit, item.part): item.data for item in items}
        assert not treadle.move_to(place), "what a control has already is not sent again"
    for move in SWEEP.moves:
        assert treadle.shown()[move.entry] == values_of(move)[treadle.place]
        assert (move.unit, move.control.id) in last


def test_a_move_that_makes_no_sense_is_left_out():
    text = (
        '[[unit]]\nid = "feet"\nchart = "braeburn-six"\n'
        '[[unit]]\nid = "delay"\nchart = "bramley-delay"\nchannel = 3\n'
        '[[sweep]]\nname = "S"\npedal = "feet.exp-1"\npresets = "all"\n'
        'moves = [{ unit = "delay", control = "mix", heel = 0, toe = "loud" }]\n'
    )
    rig = open_text(text).rig
    assert Treadle(rig, rig.sweeps[0]).move_to(64) == []


@pytest.mark.parametrize("seconds", [0.2, 4.0])
def test_a_travel_goes_there_and_back(seconds):
    steps = list(travel(seconds))
    assert steps[0] == (0, 0)
    assert steps[-1] == (round(seconds * 1e6), 0)
    assert max(place for _, place in steps) == 127
    assert [at for at, _ in steps] == sorted(at for at, _ in steps)
