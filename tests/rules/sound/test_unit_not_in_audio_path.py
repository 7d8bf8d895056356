from tests.rules.looking import found
from thruline.proof.example_boards import a_unit, an_audio_path, board
from thruline.proof.rules.sound.unit_not_in_audio_path import RULE

PLAIN = """
format = 1

[chart]
id = "plain"
maker = "Example"
model = "Plain"
kind = "drive"
about = "An invented drive with {sockets}."
"""
SOCKET = """
[[socket]]
id = "{kind}"
kind = "{kind}"
connector = "ts-6.35"
"""


def chart(*kinds: str) -> str:
    """A unit with nothing but these sockets."""
    return PLAIN.format(sockets=" and ".join(kinds)) + "".join(
        SOCKET.format(kind=kind) for kind in kinds
    )


def test_an_input_and_an_output_are_enough_to_be_missed() -> None:
    charts = (chart("audio-in", "audio-out"),)
    example = board(a_unit("drive", "plain"), an_audio_path("guitar", "amp"), charts=charts)
    assert len(found(RULE, example)) == 1


def test_a_unit_that_only_gives_sound_belongs_to_no_path() -> None:
    example = board(
        a_unit("synth", "plain"), an_audio_path("guitar", "amp"), charts=(chart("audio-out"),)
    )
    assert found(RULE, example) == []
