"""Two units on the same ground."""

from tests.rules.looking import found, state
from thruline.proof.example_boards import a_unit
from thruline.proof.rule import Example
from thruline.proof.rules.document.units_overlap import RULE


def test_how_deep_they_stand_on_each_other_is_told() -> None:
    (one,) = found(RULE, RULE.failing)
    assert one.says.endswith(" mm")


def test_a_size_that_a_chart_lacks() -> None:
    bare = a_unit("knee", "rajka-knee", "place = { x = 10, y = 10 }")
    proof = state(Example(f"{RULE.passing.rig}\n{bare}")).proof
    (one,) = [each for each in proof.untold if each.rule == RULE.id]
    assert one.lacks == "size in chart rajka-knee"
