from dataclasses import replace

from tests.opening import open_text
from tests.proof.boards import case_of
from thruline.path.outcome import Outcome
from thruline.proof.example_boards import DELAY, a_preset, board
from thruline.proof.midi_leads import missing_lead
from thruline.proof.silences import silences
from thruline.rig.cable import Jack

RIG = open_text(board(DELAY, a_preset(1, "Overture", 'delay = "2A"')).rig).rig


def cause():
    case = case_of(board(DELAY, a_preset(1, "Overture", 'delay = "2A"')))
    (one,) = silences(case, {Outcome.NOT_PLUGGED_IN})
    return one.cause


def test_the_first_free_output_gets_the_lead():
    (mend,) = missing_lead(RIG, cause())
    (edit,) = mend.edits
    assert edit.value == {
        "from": "feet.midi-out-1",
        "to": "delay.midi-in",
        "ends": "din5/din5",
    }


def test_no_lead_where_nothing_is_free_or_no_socket_is_known():
    assert not [*missing_lead(RIG, replace(cause(), free=()))]
    assert not [*missing_lead(RIG, replace(cause(), jack=None))]


def test_no_lead_that_would_not_carry():
    assert not [*missing_lead(RIG, replace(cause(), free=(Jack("feet", "usb"),)))]
