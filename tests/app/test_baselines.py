import pytest

from tests.opening import open_text
from tests.samples.reading import ORCHARD, rig
from thruline.app.baselines import baselines
from thruline.proof.case import Case

ECHO = """
[[unit]]
id = "feet"
chart = "{feet}"

[[unit]]
id = "delay"
chart = "bramley-delay"
channel = 3

[[cable]]
from = "feet.{out}"
to = "delay.midi-in"
ends = "din5/din5"

[[preset]]
number = 1
name = "Intro"
delay = {{ program = "2A", mix = "40%" }}
"""


@pytest.mark.parametrize("number", [2, 5, 7])
def test_no_plain_order_is_faster_than_the_best(number):
    case = Case(rig(ORCHARD))
    preset = case.rig.preset(number)
    best = case.run(preset).right_us
    for one in baselines(case, preset):
        assert one.right_us >= best
        assert one.lost == 0


def test_both_orders_have_a_name():
    case = Case(rig(ORCHARD))
    says = [one.says for one in baselines(case, case.rig.presets[0])]
    assert len(says) == len(set(says)) == 2


def test_one_unit_leaves_no_choice():
    case = Case(open_text(ECHO.format(feet="braeburn-six", out="midi-out-1")).rig)
    preset = case.rig.presets[0]
    assert {one.right_us for one in baselines(case, preset)} == {case.run(preset).right_us}
