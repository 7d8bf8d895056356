"""A cable that could not be read is one finding; what it was meant for is not told empty."""

import pytest

from tests.proof.boards import case_of, proof_of
from thruline.proof.example_boards import (
    DELAY,
    TO_DELAY,
    a_cable,
    a_power_lead,
    a_preset,
    a_sweep,
    a_unit,
    board,
)
from thruline.proof.lost_cables import lost_cables, may_lead_to
from thruline.rig.cable import Jack

PRESET = a_preset(1, "Overture", 'delay = { program = "2A", mix = 40 }')
SWEEP = a_sweep("Swell", 'unit = "delay", control = "mix", heel = 0, toe = 100')
TREADLE = a_unit("treadle", "ribston-treadle")


@pytest.mark.parametrize(
    "cable",
    [
        a_cable("feet.midi-out-1", "delay.midi-inn"),
        a_cable("feet.midi-out-1", "dellay.midi-in"),
        a_cable("feet.midi-out-1", "xyz.midi-in"),
        a_cable("feet.midi-outt", "delay.midi-in"),
        a_cable("feet.midi-out-1", "delay.midi-in", ends="din55/din5"),
    ],
)
def test_a_midi_cable(cable: str) -> None:
    findings = proof_of(board(DELAY, PRESET, cable)).findings
    assert len(findings) == 1
    assert findings[0].rule.startswith("document.")


def test_a_pedal_lead() -> None:
    lead = a_cable("treadle.output", "feet.exp-11", ends="trs-6.35/trs-6.35")
    rules = [one.rule for one in proof_of(board(DELAY, TO_DELAY, TREADLE, lead, SWEEP)).findings]
    assert "document.unknown-socket" in rules
    assert "capacity.no-pedal-plugged-in" not in rules


def test_a_power_lead() -> None:
    supply = a_unit("supply", "elstar-supply")
    lead = a_power_lead("supply.outlet-1", "delay.power-inn")
    feet = a_power_lead("supply.outlet-11", "feet.power-in")
    rules = [one.rule for one in proof_of(board(DELAY, supply, lead, feet)).findings]
    assert rules == ["document.unknown-socket"]


def test_a_cable_that_is_not_there_is_told_as_ever() -> None:
    rules = [one.rule for one in proof_of(board(DELAY, PRESET)).findings]
    assert rules == ["arrival.nothing-plugged-in"]


def test_a_lost_cable_is_not_for_every_socket() -> None:
    rig = case_of(board(DELAY, PRESET, a_cable("feet.midi-out-1", "xyz.midi-in"))).rig
    assert lost_cables(rig) == ((Jack("feet", "midi-out-1"), None),)
    assert may_lead_to(rig, Jack("delay", "midi-in"))
    assert not may_lead_to(rig, Jack("delay", "power-in"))
