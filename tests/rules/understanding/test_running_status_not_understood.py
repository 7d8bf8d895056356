from tests.opening import open_text
from thruline.proof.case import Case
from thruline.proof.example_boards import a_cable, a_unit, board
from thruline.proof.rules.understanding.running_status_not_understood import RULE

LIGHTS = a_unit("lights", "discovery-lights", "channel = 16")
SPLIT = a_unit("split", "cox-split")


def found(*pieces, controller="quarrenden-three"):
    case = Case(open_text(board(*pieces, controller=controller).rig).rig)
    return list(RULE.look_board(case))


def test_running_status_is_seen_through_an_electrical_copy():
    (one,) = found(
        LIGHTS,
        SPLIT,
        a_cable("feet.midi-out", "split.midi-in", 'wiring = "type-a"', ends="trs-3.5/din5"),
        a_cable("split.out-1", "lights.midi-in"),
    )
    assert [str(place) for place in one.where] == ["unit[lights]", "unit[feet]"]


def test_two_copies_that_feed_each_other_have_no_maker():
    ring = (a_cable("split.out-1", "other.midi-in"), a_cable("other.out-1", "split.midi-in"))
    lead = a_cable("split.out-2", "lights.midi-in")
    assert found(LIGHTS, SPLIT, a_unit("other", "cox-split"), *ring, lead) == []


def test_a_cable_that_carries_nothing_brings_no_running_status():
    lead = a_cable("feet.midi-out", "lights.midi-in", 'wiring = "type-b"', ends="trs-3.5/din5")
    assert found(LIGHTS, lead) == []
