"""Pieces of rig documents make documents that can be read."""

import tomllib

from tests.opening import with_head
from thruline.proof.example_boards import (
    DELAY,
    DELAY_TO_REVERB,
    REVERB,
    TO_DELAY,
    a_power_lead,
    a_preset,
    a_song,
    a_sweep,
    a_unit,
    an_audio_path,
    board,
)

EVERYTHING = board(
    DELAY,
    REVERB,
    a_unit("supply", "elstar-supply", "place = { x = 1, y = 2 }"),
    TO_DELAY,
    DELAY_TO_REVERB,
    a_power_lead("supply.outlet-1", "delay.power-in", "length = 300"),
    a_preset(1, "Overture", 'delay = { program = "2A" }'),
    a_sweep("Swell", 'unit = "delay", control = "mix", heel = 0, toe = 9'),
    a_song("Act one", "[1]", "tempo = 96"),
    an_audio_path("guitar", "delay", "reverb", "amp"),
)


def test_every_piece_can_be_read() -> None:
    data = tomllib.loads(with_head(EVERYTHING.rig))
    assert [unit["id"] for unit in data["unit"]] == ["feet", "delay", "reverb", "supply"]
    assert data["cable"][2]["length"] == 300
    assert data["sweep"][0]["moves"][0]["toe"] == 9
    assert data["song"][0]["tempo"] == 96
    assert data["audio"]["path"][-1] == "amp"


def test_another_controller() -> None:
    data = tomllib.loads(with_head(board(controller="quarrenden-three").rig))
    assert data["unit"][0]["chart"] == "quarrenden-three"
