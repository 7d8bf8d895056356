"""What a pedal's lead joins."""

import pytest

from tests.proof.boards import case_of
from thruline.proof.example_boards import a_cable, a_unit, board
from thruline.proof.pedal_leads import PedalLead, pedal_lead
from thruline.rig.cable import Jack


def _lead(*rows: str, ends: str = "trs-6.35/trs-6.35") -> PedalLead | None:
    cable = a_cable("treadle.output", "feet.exp-1", *rows, ends=ends)
    rig = case_of(board(a_unit("treadle", "ribston-treadle"), cable)).rig
    return pedal_lead(rig, Jack("feet", "exp-1"))


def test_a_straight_lead_is_whole() -> None:
    lead = _lead()
    assert lead is not None
    assert lead.is_whole
    assert not lead.swaps


@pytest.mark.parametrize("ends", ["ts-6.35/ts-6.35", "trs-6.35/ts-6.35", "ts-6.35/trs-6.35"])
def test_a_mono_plug_at_either_end_is_never_whole(ends: str) -> None:
    lead = _lead(ends=ends)
    assert lead is not None
    assert not lead.is_whole


def test_a_crossed_lead_swaps() -> None:
    lead = _lead('wiring = "crossed"')
    assert lead is not None
    assert lead.is_whole
    assert lead.swaps


def test_no_lead_or_one_that_does_not_fit() -> None:
    assert _lead(ends="ts-3.5/ts-3.5") is None
    rig = case_of(board(a_unit("treadle", "ribston-treadle"))).rig
    assert pedal_lead(rig, Jack("feet", "exp-1")) is None
