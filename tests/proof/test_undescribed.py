import pytest

from tests.proof.boards import case_of, proof_of
from tests.samples.reading import AS_FOUND, ORCHARD, rig
from thruline.proof.example_boards import (
    DELAY,
    TO_DELAY,
    a_power_lead,
    a_preset,
    a_unit,
    an_audio_path,
    board,
)
from thruline.proof.undescribed import undescribed

BARE = (DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2A" }'))
SUPPLY = (
    a_unit("supply", "elstar-supply"),
    a_power_lead("supply.outlet-1", "delay.power-in"),
    a_power_lead("supply.outlet-2", "feet.power-in"),
)
SOUND = (an_audio_path("guitar", "delay", "amp"),)


@pytest.mark.parametrize(
    ("parts", "missing"),
    [
        (BARE, ("power", "sound")),
        ((*BARE, *SUPPLY), ("sound",)),
        ((*BARE, *SOUND), ("power",)),
        ((*BARE, *SUPPLY, *SOUND), ()),
    ],
)
def test_what_a_board_is_silent_about(parts, missing):
    assert undescribed(case_of(board(*parts)).rig) == missing


@pytest.mark.parametrize("file", [AS_FOUND, ORCHARD])
def test_the_samples_describe_everything(file):
    assert undescribed(rig(file)) == ()


def test_what_is_not_described_says_nothing_about_the_verdict():
    bare, whole = proof_of(board(*BARE)), proof_of(board(*BARE, *SUPPLY, *SOUND))
    assert bare.undescribed == ("power", "sound")
    assert whole.undescribed == ()
    assert bare.is_clean
