"""A wiring that no chart gives is never taken as one that fits."""

import pytest

from tests.opening import open_text
from thruline.proof.case import Case
from thruline.proof.engine import prove
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, a_preset, a_unit, board
from thruline.proof.example_charts import a_box
from thruline.proof.rulebook import rulebook

BOX = a_box("sieve", kind="box", about="An invented box.").replace("din5", "trs-3.5")


@pytest.mark.parametrize("wiring", ["type-a", "type-b"])
def test_a_jack_of_a_wiring_that_is_not_told(wiring: str) -> None:
    lead = a_cable("delay.midi-thru", "box.midi-in", f'wiring = "{wiring}"', ends="din5/trs-3.5")
    preset = a_preset(1, "Overture", 'delay = "2A"')
    rig = board(DELAY, TO_DELAY, a_unit("box", "sieve"), lead, preset)
    proof = prove(Case(open_text(rig.rig, BOX).rig), rulebook())
    assert proof.findings == ()
    told = [one.lacks for one in proof.untold if one.rule == "arrival.wire-missing"]
    assert told == ["wiring of socket midi-in in chart sieve (type-a, type-b, ...)"]
