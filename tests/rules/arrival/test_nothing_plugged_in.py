from tests.opening import open_text
from thruline.app.mend import offers, state_of
from thruline.proof.example_boards import DELAY, a_cable, a_preset, a_unit, board
from thruline.proof.rules.arrival.nothing_plugged_in import RULE

ASKED = (a_preset(1, "Overture", 'delay = "2A"'), a_preset(2, "Walk"))


def weighed(*parts):
    state = state_of(open_text(board(*parts).rig))
    return [one for one in offers(state) if one.finding.rule == RULE.id]


def test_the_evidence_says_who_asks_and_not_the_headline_again():
    (one,) = weighed(DELAY, *ASKED)
    rows = [row for evidence in one.finding.evidence for row in evidence.rows]
    assert rows == [("presets", '1 "Overture"')]


def test_a_lead_from_the_first_free_output_is_offered_and_works():
    (one,) = weighed(DELAY, *ASKED)
    assert one.mend.says == "Put a lead from feet.midi-out-1 to delay.midi-in"
    assert one.works
    assert not one.mend.is_safe


def test_an_output_in_use_is_not_offered():
    other = a_unit("other", "bramley-delay", "channel = 5")
    (one,) = weighed(DELAY, other, a_cable("feet.midi-out-1", "other.midi-in"), *ASKED)
    assert one.mend.says == "Put a lead from feet.midi-out-2 to delay.midi-in"
    assert one.works


def test_a_lead_to_a_jack_is_of_the_type_that_carries():
    reverb = a_unit("reverb", "pippin-reverb", "channel = 4")
    (one,) = weighed(reverb, a_preset(1, "Overture", 'reverb = "07"'))
    assert one.works
    assert one.mend.edits[0].value["ends"].startswith("din5/")
