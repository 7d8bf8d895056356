import numpy as np
import pytest

from tests.find.boards import field, row_of, suspect
from thruline.find.field import NOTHING, OTHER
from thruline.find.kinds import Kind
from thruline.find.likely import ACTS, likelihood, noisy


@pytest.mark.parametrize("check_id", ["look box-2 1", "tester feet.midi-out>box-1.midi-in"])
def test_the_likelihoods_of_all_answers_sum_to_one(check_id):
    check = field().check(check_id)
    total = sum(likelihood(field(), check, answer) for answer in check.answers)
    np.testing.assert_allclose(total, 1)


def test_a_person_is_mostly_right():
    check = field().check("look box-2 1")
    found = likelihood(field(), check, "right")
    assert found[NOTHING] == pytest.approx(check.sure)
    assert found[row_of(suspect(Kind.CHANNEL_ABOVE, "box-2"))] < 0.1


def test_what_comes_and_goes_shows_half_of_the_time():
    check = field().check("look box-2 1")
    loose = row_of(suspect(Kind.CABLE_LOOSE, "box-1"))
    right, nothing = (likelihood(field(), check, one)[loose] for one in ("right", "nothing"))
    assert right == pytest.approx(nothing)
    assert right == pytest.approx(ACTS * check.sure + (1 - ACTS) * (1 - check.sure) / 6)
    again = field().check("repeat box-2 1")
    assert likelihood(field(), again, "sometimes")[loose] == pytest.approx(again.sure)


def test_of_a_glance_each_unit_counts():
    check = field().check("glance 1")
    found = likelihood(field(), check, "box-3")
    assert found[NOTHING] == pytest.approx(check.sure**2 * (1 - check.sure))
    assert found[OTHER] == pytest.approx(1 / 8)


def test_errors_spread_over_the_other_answers():
    check = field().check("lamp box-1 1")
    sure = np.array([check.sure])
    np.testing.assert_allclose(noisy(np.array([1.0, 0.0]), sure), [check.sure, 1 - check.sure])
