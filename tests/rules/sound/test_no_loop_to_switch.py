from tests.rules.looking import found
from thruline.proof.example_boards import a_preset, a_unit, an_audio_path, board
from thruline.proof.rules.sound.no_loop_to_switch import RULE

UNITS = (a_unit("loops", "ellison-loops", "channel = 9"), a_unit("drive", "russet-drive"))
IN = a_preset(1, "Overture", 'drive = "in"')


def test_a_loop_box_with_a_control_for_the_loop_switches_it() -> None:
    path = an_audio_path("guitar", "loops.loop-1[drive]", "amp")
    assert found(RULE, board(*UNITS, path, IN)) == []


def test_a_loop_of_a_unit_without_such_a_control_does_not() -> None:
    path = an_audio_path("guitar", "loops.loop-4[drive]", "amp")
    (finding,) = found(RULE, board(*UNITS, path, IN))
    assert finding.says.endswith("Ellison Loop Box has no control that switches loop-4")
    assert finding.mends[0].says == 'Take "in" out of the preset'
