"""The makers of example charts make charts that can be used."""

from tests.proof.boards import case_of
from thruline.proof.example_boards import a_unit, board
from thruline.proof.example_charts import a_box, a_listener


def test_a_box_passes_messages_on() -> None:
    chart = a_box("sieve", 'blocks = ["clock"]', kind="MIDI filter", about="A box.")
    unit = case_of(board(a_unit("box", "sieve"), charts=(chart,))).rig.units["box"]
    assert (unit.chart.model, list(unit.chart.sockets)) == ("Sieve", ["midi-in", "midi-out"])
    assert unit.chart.outputs["midi-out"].blocks == {"clock"}


def test_a_listener_has_one_control() -> None:
    chart = a_listener("phaser", 'id = "depth"', 'name = "Depth"', "high = 100", about="A unit.")
    unit = case_of(board(a_unit("it", "phaser", "channel = 2"), charts=(chart,))).rig.units["it"]
    (control,) = unit.chart.controls.values()
    assert (control.id, control.number, control.high) == ("depth", 20, 100)
    assert unit.chart.listens
