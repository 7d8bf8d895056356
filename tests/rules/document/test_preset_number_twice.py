from tests.rules.looking import found
from thruline.proof.example_boards import a_preset, board
from thruline.proof.rules.document.preset_number_twice import RULE


def test_the_free_number_is_one_that_the_controller_has() -> None:
    presets = [a_preset(n, "Cue") for n in (60, 60, 1)]
    (finding,) = found(RULE, board(*presets, controller="quarrenden-three"))
    assert finding.mends[0].says == 'Give "Cue" the number 2, which is free'


def test_without_a_controller_it_is_the_next() -> None:
    presets = [a_preset(n, "Cue") for n in (60, 60, 1)]
    (finding,) = found(RULE, board(*presets, controller="bramley-delay"))
    assert finding.mends[0].says == 'Give "Cue" the number 61, which is free'
