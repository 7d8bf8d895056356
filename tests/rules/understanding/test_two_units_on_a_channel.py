"""Two units on a channel, behind a controller that chooses between its outputs."""

from tests.routed import case_of_two_lines
from thruline.proof.engine import look
from thruline.proof.example_boards import a_cable, a_unit
from thruline.proof.rules.understanding.two_units_on_a_channel import RULE


def test_on_outputs_of_their_own_they_do_not_meet() -> None:
    assert not look(case_of_two_lines(), RULE)
    assert look(case_of_two_lines(controller="braeburn-six"), RULE)


def test_behind_one_output_they_do() -> None:
    third = a_unit("third", "bramley-delay", "channel = 3")
    found = look(case_of_two_lines(third, a_cable("echo.midi-thru", "third.midi-in")), RULE)
    assert len(found) == 1
