"""A case works everything out once, and goes on from an earlier one."""

from dataclasses import replace

import pytest

from tests.proof.boards import case_of
from thruline.proof.case import MOST_BOARDS, Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board

RIG = board(
    DELAY,
    TO_DELAY,
    a_preset(1, "Overture", 'delay = { program = "2A", mix = 64 }'),
    a_preset(2, "Balcony", 'delay = { program = "2B" }'),
)


def test_runs_stand_in_the_order_of_the_presets() -> None:
    case = case_of(RIG)
    assert [case.run(preset) for preset in case.rig.presets] == list(case.runs())


def test_an_unchanged_preset_is_not_worked_out_again() -> None:
    case = case_of(RIG)
    case.runs()
    renamed = replace(case.rig.presets[0], name="Prologue")
    after = Case(replace(case.rig, presets=(renamed, case.rig.presets[1])), case)
    assert after.run(after.rig.presets[1]) is case.run(case.rig.presets[1])
    assert after.board is case.board


def test_another_board_starts_anew() -> None:
    case = case_of(RIG)
    after = Case(replace(case.rig, cables=()), case)
    assert after.board is not case.board
    assert after.run(after.rig.presets[0]).heard["delay"] == ()


def test_a_preset_of_another_rig_is_not_known() -> None:
    case = case_of(RIG)
    stranger = replace(case.rig.presets[0], name="Stranger")
    with pytest.raises(KeyError):
        case.run(stranger)


def test_addressed_units_are_those_that_presets_want_something_of() -> None:
    assert case_of(RIG).addressed == {"delay"}


def test_kept_things_are_made_once() -> None:
    case = case_of(RIG)
    made: list[int] = []
    for _ in range(2):
        case.kept("x", lambda: made.append(1))
        case.kept_for(case.rig.presets[0], "x", lambda: made.append(2))
    assert made == [1, 2]


def test_presets_with_a_memory() -> None:
    stored = a_preset(3, "Storm", 'messages = ["3: program 4"]')
    case = case_of(board(DELAY, TO_DELAY, a_preset(1, "Overture"), stored))
    assert [preset.number for preset in case.with_memory] == [3]


def test_a_board_that_comes_back_is_remembered() -> None:
    case = case_of(RIG)
    case.runs()
    away = Case(replace(case.rig, cables=()), case)
    back = Case(case.rig, away)
    assert back.board is case.board
    assert list(map(id, back.runs())) == list(map(id, case.runs()))
    assert [one.board for one in back.earlier] == [away.board]


def test_only_a_few_boards_are_remembered() -> None:
    case = case_of(RIG)
    for us in range(6):
        case = Case(replace(case.rig, slowest_change_us=us), case)
    assert len(case.earlier) == MOST_BOARDS
