"""What follows from units, settings and cables alone."""

from dataclasses import replace

from tests.proof.boards import case_of
from tests.routed import case_of_two_lines
from thruline.compose.jobs import Proof
from thruline.proof.board import NO_SENDER, Board, same_board
from thruline.proof.example_boards import (
    DELAY,
    DELAY_TO_REVERB,
    REVERB,
    TO_DELAY,
    a_preset,
    board,
)
from thruline.proof.kept import Kept
from thruline.proof.rule import Example
from thruline.rig.whole import Rig

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


def waits_key(rig: Rig, kept: Kept) -> int:
    return Board(rig).waits_key(kept)


def test_boards_that_carry_alike_have_one_number() -> None:
    rig, kept = case_of(RIG).rig, Kept()
    assert waits_key(rig, kept) == waits_key(replace(rig, slowest_change_us=1), kept)
    assert waits_key(rig, kept) != waits_key(case_of(board(DELAY)).rig, kept)


def test_a_unit_on_another_channel_needs_the_same_waits() -> None:
    rig, kept = case_of(RIG).rig, Kept()
    delay = replace(rig.units["delay"], channel=9, sent_on=9)
    assert waits_key(rig, kept) == waits_key(
        replace(rig, units={**rig.units, "delay": delay}), kept
    )
    unknown = replace(delay, channel=None)
    other = replace(rig, units={**rig.units, "delay": unknown})
    assert waits_key(rig, kept) != waits_key(other, kept)


def test_waits_are_found_on_the_board_itself_unless_units_share_a_channel() -> None:
    rig = case_of(board(DELAY, REVERB, TO_DELAY, DELAY_TO_REVERB)).rig
    assert Board(rig).for_waits.rig is rig
    both = {name: replace(rig.units[name], channel=5, sent_on=5) for name in ("delay", "reverb")}
    shared = Board(replace(rig, units={**rig.units, **both}))
    apart = shared.for_waits
    assert [apart.rig.units[name].channel for name in ("delay", "reverb")] == [1, 2]
    assert apart.roads is shared.roads


def test_a_controller_without_abilities_can_order_and_not_pause() -> None:
    rig = Example(RIG.rig.replace("braeburn-six", "bramley-delay"))
    rig = Example(rig.rig.replace("feet.midi-out-1", "feet.midi-out"))
    sender = case_of(rig).board.sender
    assert sender == NO_SENDER
    assert sender.means.pauses is None


def test_units_on_one_channel_over_two_outputs_hear_only_what_is_meant_for_them() -> None:
    case = case_of_two_lines()
    (preset,) = case.rig.presets
    run = case.run(preset)
    assert {item.unit for item in run.sending.items} == {"delay", "echo"}
    for unit in ("delay", "echo"):
        own = [place for place, item in enumerate(run.sending.items) if item.unit == unit]
        assert [heard.place for heard in run.heard[unit]] == own
        assert all(fate.is_good for fate in run.receptions[unit].fates)


def test_the_same_board_with_outputs_alike_has_them_hear_each_other() -> None:
    case = case_of_two_lines(controller="braeburn-six")
    (preset,) = case.rig.presets
    run = case.run(preset)
    everything = list(range(len(run.sending.items)))
    assert [heard.place for heard in run.heard["delay"]] == everything


def test_an_order_over_two_outputs_is_proved_although_they_share_a_channel() -> None:
    case = case_of_two_lines()
    ordered = case.composed(case.rig.presets[0]).ordered
    assert ordered.proof is not Proof.NOT_PROVED
    assert case.run(case.rig.presets[0]).right_us >= ordered.bound_us


def test_a_controller_that_chooses_is_taken_to_send_every_status_byte() -> None:
    assert not case_of_two_lines().board.sender.running_status
