import pytest

from tests.rules.looking import found
from thruline.proof.example_boards import REVERB, a_cable, a_unit, board
from thruline.proof.rules.understanding.sent_on_another_channel import RULE


@pytest.mark.parametrize(("sent_on", "mends"), [(7, 2), (4, 1), (9, 1)])
def test_the_unit_is_only_set_to_what_is_free_and_possible(sent_on: int, mends: int) -> None:
    echo = a_unit("echo", "laxton-echo", "channel = 5", f"sent-on = {sent_on}")  # it goes up to 8
    (finding,) = found(RULE, board(REVERB, echo, a_cable("feet.midi-out-1", "echo.midi-in")))
    assert len(finding.mends) == mends
    assert finding.mends[0].says == "Send to Laxton Echo on channel 5"
