"""What a preset asks for and nothing is sent for is never lost in silence."""

import pytest

from tests.opening import open_text
from thruline.compose.unsent import NotSent, not_sent, why_no_loop
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, a_unit, an_audio_path, board


def _unsent(*blocks: str) -> tuple[NotSent, ...]:
    rig = open_text(board(*blocks).rig).rig
    return not_sent(rig, rig.presets[0])


def _asked(goal: str) -> tuple[NotSent, ...]:
    return _unsent(DELAY, TO_DELAY, a_preset(1, "Overture", goal))


def test_what_can_be_sent_is_not_listed() -> None:
    assert _asked('delay = { program = "2A", mix = "50%" }') == ()


@pytest.mark.parametrize(
    ("goal", "says", "why"),
    [
        ('delay = { mix = "25 s" }', "Bramley Delay: Mix 25 s", "is not a measure"),
        ("delay = { mix = 200 }", "Bramley Delay: Mix 200", "outside 0 to 127"),
        ('delay = "111A"', 'Bramley Delay: program "111A"', "no such label"),
        ("delay = { mux = 2 }", "delay: mux", "has no control"),
        ('deley = "1A"', "deley", "which is no unit"),
        ('feet = { loop = "in" }', "Braeburn Six: loop in", "no relay loop"),
    ],
)
def test_what_no_message_can_be_made_of(goal: str, says: str, why: str) -> None:
    (found,) = _asked(goal)
    assert found.says == says
    assert why in found.why


def test_a_unit_that_is_no_midi_unit_has_no_channel() -> None:
    (found,) = _unsent(a_unit("drive", "russet-drive"), a_preset(1, "Overture", 'drive = "3"'))
    assert (found.unit, found.written) == ("drive", "3")
    assert "channel" in found.why


def test_a_message_of_the_memory_that_cannot_be_read() -> None:
    stored = 'messages = ["3: program 1", "3: progam 2"]'
    (found,) = _unsent(DELAY, TO_DELAY, a_preset(1, "Overture", stored))
    assert (found.unit, found.says) == (None, "message 2 of the memory")


def test_a_unit_in_a_relay_loop_can_be_switched() -> None:
    path = an_audio_path("guitar", "feet.loop-1[drive]", "amp")
    rig = open_text(board(a_unit("drive", "russet-drive"), path).rig).rig
    assert why_no_loop(rig, "drive") is None
    assert why_no_loop(rig, "feet") is not None
