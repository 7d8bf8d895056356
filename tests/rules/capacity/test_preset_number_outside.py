from tests.rules.looking import found
from thruline.proof.example_boards import a_preset, board
from thruline.proof.rule import Example
from thruline.proof.rules.capacity.preset_number_outside import RULE

FEET = """
format = 1
[chart]
id = "nought"
maker = "Example"
model = "Nought"
kind = "foot controller"
[controller]
presets = 2
first-preset = 0
"""


def test_nought_is_a_number_like_any_other() -> None:
    example = board(a_preset(1, "Overture"), a_preset(7, "Balcony"), controller="nought")
    (finding,) = found(RULE, Example(example.rig, charts=(FEET,)))
    assert [mend.says for mend in finding.mends] == ["Give it the number 0, which is free"]


def test_without_a_free_number_there_is_no_mend() -> None:
    presets = [a_preset(n, "Cue") for n in (0, 1, 7)]
    (finding,) = found(RULE, Example(board(*presets, controller="nought").rig, charts=(FEET,)))
    assert finding.mends == ()
