from dataclasses import replace

from tests.rules.looking import found
from thruline.proof.example_boards import a_cable, a_preset, a_unit, board
from thruline.proof.rule import Example
from thruline.proof.rules.arrival.held_back_on_the_way import RULE

SIEVE = RULE.failing.charts[0].replace('["control"]', '["control", "program"]')


def test_a_unit_is_told_of_once_with_all_that_it_misses() -> None:
    rig = RULE.failing.rig.replace("{ mix = 40 }", '{ mix = 40, program = "2A" }')
    (finding,) = found(RULE, replace(RULE.failing, rig=rig, charts=(SIEVE,)))
    assert finding.says.startswith("program changes and control changes for Bramley Delay")
    assert [str(place) for place in finding.where] == ["unit[delay]", "unit[box]"]


def routed(over: str) -> Example:
    """The filter behind one output, the delay straight at the other."""
    return board(
        a_unit("box", "sieve"),
        a_unit("merge", "kidd-merge"),
        a_unit("delay", "bramley-delay", "channel = 3", f'sent-over = "{over}"'),
        a_cable("feet.midi-out-1", "box.midi-in"),
        a_cable("box.midi-out", "merge.in-1"),
        a_cable("feet.midi-out-2", "merge.in-2"),
        a_cable("merge.output", "delay.midi-in"),
        a_preset(1, "Overture", "delay = { mix = 40 }"),
        controller="pearmain-ten",
        charts=RULE.failing.charts,
    )


def test_only_the_way_that_messages_take_counts() -> None:
    (finding,) = found(RULE, routed("midi-out-1"))
    assert [str(place) for place in finding.where] == ["unit[delay]", "unit[box]"]
    assert not found(RULE, routed("midi-out-2"))


def test_an_output_that_does_not_lead_there_is_no_filter() -> None:
    apart = routed("midi-out-2").rig.replace('from = "feet.midi-out-2"', 'from = "box.midi-thru"')
    assert not found(RULE, replace(routed("midi-out-2"), rig=apart))
