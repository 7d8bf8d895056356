"""The way of the sound, from socket to socket."""

from tests.opening import open_text
from thruline.proof.example_boards import DELAY, REVERB, a_unit, an_audio_path, board
from thruline.rig.cable import Jack
from thruline.rig.sound_steps import sound_plug, sound_steps
from thruline.rig.whole import Rig

DRIVE = a_unit("drive", "russet-drive")


def _rig(*path: str) -> Rig:
    return open_text(board(DELAY, REVERB, DRIVE, an_audio_path(*path)).rig).rig


def _steps(*path: str) -> list[tuple[str, str]]:
    return [
        (" or ".join(map(str, one.starts)), " or ".join(map(str, one.stops)))
        for one in sound_steps(_rig(*path))
    ]


def test_from_unit_to_unit_and_not_to_what_is_not_on_the_board() -> None:
    assert _steps("guitar", "drive", "delay", "amp") == [("drive.output", "delay.input")]


def test_into_a_loop_and_out_of_it() -> None:
    assert _steps("guitar", "feet.loop-1[drive]", "delay", "amp") == [
        ("feet.send-1", "drive.input"),
        ("drive.output", "feet.return-1"),
        ("feet.output", "delay.input"),
    ]


def test_two_units_in_a_loop() -> None:
    steps = _steps("guitar", "feet.loop-1[drive, delay]", "amp")
    assert steps[1] == ("drive.output", "delay.input")


def test_loops_in_a_row_are_joined_inside() -> None:
    steps = _steps("guitar", "feet.loop-1[drive]", "feet.loop-2[delay]", "amp")
    assert len(steps) == 4


def test_the_plug_for_sound_has_two_contacts() -> None:
    rig = _rig("guitar", "drive", "amp")
    assert sound_plug(rig, Jack("drive", "output")) == "ts-6.35"
