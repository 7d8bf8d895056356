"""Units that hear nothing, grouped by what stops the messages."""

from tests.proof.boards import case_of
from thruline.path.outcome import Outcome
from thruline.proof.example_boards import DELAY, REVERB, a_cable, a_preset, a_unit, board
from thruline.proof.silences import addressed, is_told, silences, way_to

PRE = a_unit("pre", "egremont-preamp", "channel = 2", 'settings = { midi-out = "out" }')
GOALS = a_preset(1, "Overture", 'delay = { program = "2A" }', "reverb = { program = 7 }")
CUT = board(
    PRE,
    DELAY,
    REVERB,
    a_cable("feet.midi-out-1", "pre.midi-in"),
    a_cable("pre.midi-out", "delay.midi-in"),
    a_cable("delay.midi-thru", "reverb.midi-in", 'wiring = "type-a"', ends="din5/trs-3.5"),
    GOALS,
)


def test_one_cause_names_all_it_cuts_off() -> None:
    (one,) = silences(case_of(CUT), {Outcome.NOT_PASSED_ON})
    assert [unit.id for unit in one.cut_off] == ["delay", "reverb"]
    assert one.names == "Bramley Delay and Pippin Reverb"


def test_other_outcomes_are_left_out() -> None:
    assert silences(case_of(CUT), {Outcome.NOT_PLUGGED_IN}) == ()


def test_units_that_nobody_addresses_do_not_count() -> None:
    case = case_of(CUT)
    assert [unit.id for unit in addressed(case)] == ["delay", "reverb"]


def test_the_evidence_says_how_far_messages_get() -> None:
    case = case_of(CUT)
    (one,) = silences(case, {Outcome.NOT_PASSED_ON})
    rows = dict(way_to(case, one.cause).rows)
    assert "pre MIDI IN" in rows["as far as"]
    assert rows["there"]


def test_known_and_unknown_outcomes() -> None:
    assert is_told(Outcome.LOST)
    assert not is_told(Outcome.WAY_UNTOLD)
