"""Leftovers told for people, and the edits that end them."""

from tests.proof.boards import case_of
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.leftover_facts import (
    evidence,
    goal_with,
    left_over,
    sentence,
    set_everywhere,
    where,
)
from thruline.sameness.columns import ColumnKind
from thruline.sameness.held import Cause

STORM = a_preset(1, "Storm", "delay = { program = '2A', trails = 'on' }")
CALM = a_preset(2, "Calm", "delay = { program = '2B', trails = 'off' }")
BARE = a_preset(3, "Balcony", "delay = '2C'")
RIG = board(DELAY, TO_DELAY, STORM, CALM, BARE)


def test_the_sentence_names_what_where_and_two_ways() -> None:
    ((unit, one),) = left_over(case_of(RIG), ColumnKind.CONTROL, Cause.PRESETS)
    says = sentence(one, unit)
    assert says.startswith('Trails of Bramley Delay is left over in preset 3 "Balcony"')
    assert "coming from" in says
    assert str(where(one)) == "unit[delay].control[trails]"


def test_the_evidence_says_who_sets_it() -> None:
    ((unit, one),) = left_over(case_of(RIG), ColumnKind.CONTROL)
    rows = dict(evidence(one, unit).rows)
    assert rows['1 "Storm" sets it to'] == "on"
    assert rows["left as it was in"] == '3 "Balcony"'


def test_the_mend_keeps_what_the_preset_wants_already() -> None:
    ((unit, one),) = left_over(case_of(RIG), ColumnKind.CONTROL)
    (mend,) = set_everywhere(one, unit)
    (edit,) = mend.edits
    assert edit.value["program"] == "2C"  # type: ignore[index,call-overload]
    assert set(edit.value) == {"program", "trails"}  # type: ignore[arg-type]


def test_a_goal_with_controls_gets_one_more() -> None:
    case = case_of(RIG)
    unit = case.rig.units["delay"]
    edit = goal_with(case.rig.presets[0], unit, key="mix", value=9)
    assert (str(edit.address), edit.value) == ("preset[1].delay.mix", 9)


def test_nothing_is_left_over_when_every_preset_says_so() -> None:
    third = a_preset(3, "Balcony", "delay = { program = '2C', trails = 'off' }")
    case = case_of(board(DELAY, TO_DELAY, STORM, CALM, third))
    assert list(left_over(case, ColumnKind.CONTROL)) == []
