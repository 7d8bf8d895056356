import pytest

from tests.find.boards import field, make_board
from tests.rigs import make_rig, make_unit
from thruline.base.errors import CannotUse
from thruline.find.experience import Experience
from thruline.find.field import field_of, read_answer, units_in
from thruline.proof.case import Case


def test_the_odds_sum_to_one():
    assert field().prior.sum() == pytest.approx(1)
    assert len(field().mends) == field().prior.size == len(field().suspects) + 2


def test_a_rig_without_a_controller_cannot_be_pressed():
    rig = make_rig([make_unit("delay", "bramley")], rig={"name": "One", "controller": "feet"})
    with pytest.raises(CannotUse, match="no controller"):
        field_of(Case(rig))


def test_answers_are_read_or_refused_with_what_there_is():
    here = field()
    assert read_answer(here, here.check("look box-1 1"), "right") == "right"
    assert read_answer(here, here.check("glance 1"), "box-3, box-1") == "box-1,box-3"
    with pytest.raises(CannotUse, match="it can be: right, nothing"):
        read_answer(here, here.check("look box-1 1"), "purple")
    with pytest.raises(CannotUse, match="the units to look at are: box-1"):
        read_answer(here, here.check("glance 1"), "toaster")
    with pytest.raises(CannotUse, match="no check"):
        here.check("kick it")


def test_units_of_a_glance():
    assert units_in("") == frozenset()
    assert units_in("a,b") == {"a", "b"}


def test_counts_move_the_odds():
    plain = field()
    counted = field_of(Case(make_board()), experience=Experience(seen={plain.suspects[5].id: 10}))
    assert counted.prior[7] > 3 * plain.prior[7]
