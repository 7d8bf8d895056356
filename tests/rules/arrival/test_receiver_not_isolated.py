"""An input of which nobody knows whether it joins two grounds."""

from tests.rules.looking import state
from thruline.proof.example_boards import a_cable, a_unit, board
from thruline.proof.example_charts import a_box

BOX = a_box("sieve", kind="box", about="An invented box.")
LEAD = a_cable("feet.midi-out-1", "box.midi-in")


def _lacks(chart: str) -> list[str]:
    proof = state(board(a_unit("box", "sieve"), LEAD, charts=(chart,))).proof
    return [one.lacks for one in proof.untold if one.rule == "arrival.receiver-not-isolated"]


def test_an_input_that_is_isolated_is_not_asked_about() -> None:
    assert _lacks(BOX) == []


def test_an_input_of_which_it_is_not_told() -> None:
    told = _lacks(BOX.replace("isolated = true\n", ""))
    assert told == ["isolated of socket midi-in in chart sieve"]
