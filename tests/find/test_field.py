from dataclasses import replace

import pytest

from tests.find.boards import field, make_board
from tests.rigs import make_rig, make_unit
from thruline.base.errors import CannotUse
from thruline.find.card import NEEDS_TOOL, card_for
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
    assert read_answer(here.check("look box-1 1"), "right") == "right"
    assert read_answer(here.check("glance 1"), "box-3, box-1") == "box-1,box-3"
    with pytest.raises(CannotUse, match="it can be: as it should be"):
        read_answer(here.check("look box-1 1"), "purple")
    with pytest.raises(CannotUse, match="looked at here; they are: box-1"):
        read_answer(here.check("glance 1"), "toaster")
    with pytest.raises(CannotUse, match="no check"):
        here.check("kick it")


def test_units_of_a_glance():
    assert units_in("") == frozenset()
    assert units_in("a,b") == {"a", "b"}


def test_counts_move_the_odds():
    plain = field()
    counted = field_of(Case(make_board()), experience=Experience(seen={plain.suspects[5].id: 10}))
    assert counted.prior[7] > 3 * plain.prior[7]


def test_a_field_taken_over_is_that_worked_out_anew():
    rig = make_board()
    case = Case(rig)
    before = field_of(case, without=NEEDS_TOOL)
    renamed = replace(rig, presets=tuple(replace(one, name="Other") for one in rig.presets))
    again = field_of(Case(renamed, case), without=NEEDS_TOOL, before=before)
    anew = field_of(Case(renamed), without=NEEDS_TOOL)
    assert again.worlds._worlds is before.worlds._worlds
    assert card_for(again) == card_for(anew) != card_for(before)
    assert (again.outcomes == anew.outcomes).all()


def test_a_field_of_another_board_is_worked_out_anew():
    before = field_of(Case(make_board()))
    assert field_of(Case(make_board()), before=before).worlds._worlds is not before.worlds._worlds


def test_a_card_needs_no_more_than_the_checks_without_the_tool():
    some = field_of(Case(make_board()), without=NEEDS_TOOL)
    assert not {one.trial for one in some.checks} & NEEDS_TOOL
    assert card_for(some) == card_for(field())
