from dataclasses import replace

from tests.rules.looking import found
from thruline.proof.rules.arrival.held_back_on_the_way import RULE

SIEVE = RULE.failing.charts[0].replace('["control"]', '["control", "program"]')


def test_a_unit_is_told_of_once_with_all_that_it_misses() -> None:
    rig = RULE.failing.rig.replace("{ mix = 40 }", '{ mix = 40, program = "2A" }')
    (finding,) = found(RULE, replace(RULE.failing, rig=rig, charts=(SIEVE,)))
    assert finding.says.startswith("program changes and control changes for Bramley Delay")
    assert [str(place) for place in finding.where] == ["unit[delay]", "unit[box]"]
