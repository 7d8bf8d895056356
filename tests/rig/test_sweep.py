from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.rig.cable import Jack
from thruline.rig.sweep import (
    NEAR,
    POSITIONS,
    SHAPES,
    Curve,
    Move,
    Sweep,
    as_points,
    nearest_shape,
    share,
    staircase,
    values_of,
)
from thruline.rig.values import Control, NotUnderstood, Value

MIX = Control(id="mix", name="Mix", number=14)

wires = st.integers(0, 16383)


@given(st.sampled_from(SHAPES), wires, wires)
def test_a_staircase_has_exact_ends_and_never_turns(name, heel, toe):
    steps = staircase(Curve(name), heel, toe)
    assert len(steps) == POSITIONS
    assert (steps[0], steps[-1]) == (heel, toe)
    assert list(steps) == sorted(steps, reverse=heel > toe)


@given(st.sampled_from(SHAPES), st.floats(0, 1))
def test_a_share_stays_between_heel_and_toe(name, travel):
    assert 0 <= share(Curve(name), travel) <= 1


def test_the_shapes_of_the_curves():
    half = {name: share(Curve(name), 0.5) for name in SHAPES}
    assert half == pytest.approx({"linear": 0.5, "audio": 0.15, "late": 0.85, "s": 0.5})
    assert share(Curve("s"), 0.1) < 0.1 < share(Curve("late"), 0.1)


def test_the_middle_is_rounded_half_up():
    assert staircase(Curve("points", ((0, 50), (100, 50))), 0, 127) == (64,) * POSITIONS
    assert staircase(Curve("points", ((0, 50), (100, 50))), 127, 0) == (64,) * POSITIONS


points = st.lists(st.tuples(st.integers(0, 100), st.integers(0, 100)), min_size=1, max_size=6).map(
    lambda pairs: tuple(sorted(pairs, key=lambda pair: pair[0]))
)


@given(points)
def test_a_curve_of_points_goes_through_them(pairs):
    curve = Curve("points", pairs)
    assert share(curve, 0) == pairs[0][1] / 100 or pairs[0][0] == 0
    assert share(curve, 1) == pairs[-1][1] / 100
    travels = [travel for travel, _ in pairs]
    for travel, height in pairs:
        if travels.count(travel) == 1:
            assert share(curve, travel / 100) == pytest.approx(height / 100)


@given(points)
def test_points_that_rise_never_fall(pairs):
    rising = tuple(zip((x for x, _ in pairs), sorted(y for _, y in pairs), strict=True))
    steps = staircase(Curve("points", rising), 0, 127)
    assert all(before <= after for before, after in pairwise(steps))


@given(st.sampled_from(SHAPES), st.integers(0, 100))
def test_points_follow_the_curve_they_stand_for(name, percent):
    points = as_points(Curve(name))
    assert 2 <= len(points) <= 9
    assert (points[0], points[-1]) == ((0, 0), (100, 100))
    far = abs(share(Curve("points", points), percent / 100) - share(Curve(name), percent / 100))
    assert far <= NEAR


@pytest.mark.parametrize("name", SHAPES)
def test_a_curve_turned_into_points_is_known_again(name):
    assert nearest_shape(Curve("points", as_points(Curve(name)))) == name


def test_points_stay_the_points_they_are():
    points = ((10, 0), (50, 80), (50, 20), (90, 100))
    assert as_points(Curve("points", points)) == points


def test_a_curve_may_drop_at_one_place():
    curve = Curve("points", ((0, 0), (50, 80), (50, 20), (100, 100)))
    assert share(curve, 0.49) > 0.75
    assert share(curve, 0.51) < 0.25


def test_a_move_whose_end_makes_no_sense_has_no_values():
    heel, wrong = Value("0", 0, "0"), NotUnderstood("loud", "no", '"50%"')
    move = Move(unit="delay", control=MIX, heel=heel, toe=wrong, curve=Curve("linear"))
    assert values_of(move) == ()
    right = Move(
        unit="delay", control=MIX, heel=heel, toe=Value("9", 9, "9"), curve=Curve("linear")
    )
    assert values_of(right) == staircase(Curve("linear"), 0, 9)


def test_a_sweep_has_an_address():
    sweep = Sweep(name="Swell", pedal=Jack("feet", "exp-1"), presets=(1,), moves=())
    assert str(sweep.address) == "sweep[Swell]"
    again = Sweep(name="Swell", pedal=Jack("feet", "exp-1"), presets=(1,), moves=(), occurrence=2)
    assert str(again.address) == "sweep[Swell#2]"


def test_its_moves_have_addresses():
    def move(occurrence):
        ends = Value("0", 0, "0")
        return Move(
            unit="delay",
            control=MIX,
            heel=ends,
            toe=ends,
            curve=Curve("linear"),
            occurrence=occurrence,
        )

    sweep = Sweep(name="Swell", pedal=Jack("feet", "exp-1"), presets=(1,), moves=())
    assert str(sweep.address_of(move(1))) == "sweep[Swell].moves[delay>mix]"
    assert str(sweep.address_of(move(2))) == "sweep[Swell].moves[delay>mix#2]"
