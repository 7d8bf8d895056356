"""What follows from units, settings and cables alone."""

from dataclasses import replace

from tests.proof.boards import case_of
from thruline.proof.board import NO_SENDER, Board, same_board
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.rule import Example

RIG = board(DELAY, TO_DELAY, a_preset(1, "Overture"))


def test_presets_do_not_make_another_board() -> None:
    rig = case_of(RIG).rig
    assert same_board(rig, replace(rig, presets=()))


def test_cables_limits_and_units_do() -> None:
    rig = case_of(RIG).rig
    assert not same_board(rig, replace(rig, cables=()))
    assert not same_board(rig, replace(rig, slowest_change_us=1))
    other = case_of(board(DELAY.replace("channel = 3", "channel = 4"), TO_DELAY)).rig
    assert not same_board(rig, other)


def test_boards_that_carry_alike_have_one_number() -> None:
    case = case_of(RIG)
    moved = Board(replace(case.rig, slowest_change_us=1))
    assert case.board.lines_key(case.kept_pieces) == moved.lines_key(case.kept_pieces)
    alone = case_of(board(DELAY))
    assert alone.board.lines_key(case.kept_pieces) != case.board.lines_key(case.kept_pieces)


def test_a_controller_without_abilities_can_order_and_not_pause() -> None:
    rig = Example(RIG.rig.replace("braeburn-six", "bramley-delay"))
    rig = Example(rig.rig.replace("feet.midi-out-1", "feet.midi-out"))
    sender = case_of(rig).board.sender
    assert sender == NO_SENDER
    assert sender.means.pauses is None
