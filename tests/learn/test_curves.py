import pytest

from thruline.learn.curves import NAMED, Travel, fit_curves
from thruline.learn.travels import Point
from thruline.rig.sweep import POSITIONS, Curve, staircase


def travel(name, heel, toe, *, foot=lambda share: share):
    """A control moved by a foot that goes its own way from 0 to 1."""
    steps = staircase(Curve(name) if isinstance(name, str) else Curve("points", name), heel, toe)
    points = []
    for tick in range(200):
        value = steps[round(foot(tick / 199) * (POSITIONS - 1))]
        if not points or points[-1].value != value:
            points.append(Point(tick * 10_000, value))
    return Travel(heel=heel, toe=toe, passes=(tuple(points),))


def uneven(share):
    return share**2 * (3 - 2 * share)


@pytest.mark.parametrize("name", NAMED)
@pytest.mark.parametrize("ends", [(0, 127), (120, 3)])
def test_a_curve_gives_itself_away_however_the_foot_moves(name, ends):
    (found,) = fit_curves([travel(name, *ends, foot=uneven)])
    assert found.curve.name == name
    assert found.is_sure


@pytest.mark.parametrize("name", NAMED)
def test_a_small_range_is_told_by_what_moves_beside_it(name):
    clear, small = travel("audio", 0, 127, foot=uneven), travel(name, 60, 20, foot=uneven)
    found = fit_curves([clear, small])
    assert found[1].curve.name == name


def test_a_small_range_by_itself_is_not_sure():
    (found,) = fit_curves([travel("linear", 40, 60, foot=uneven)])
    assert not found.is_sure


def test_a_curve_of_its_own_is_written_as_points():
    own = ((0, 0), (50, 90), (75, 10), (100, 100))
    found = fit_curves([travel("audio", 0, 127), travel(own, 0, 60)])
    assert found[1].curve.name == "points"
    assert found[1].curve.points[0] == (0, 0)
    assert abs(dict(found[1].curve.points)[50] - 90) <= 6


def test_nothing_to_fit():
    assert fit_curves([]) == ()
    (found,) = fit_curves([Travel(heel=0, toe=127, passes=((),))])
    assert not found.is_sure
