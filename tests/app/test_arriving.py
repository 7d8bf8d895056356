import pytest

from tests.app.test_trace import BOARD
from tests.opening import open_text
from thruline.app.arriving import arriving
from thruline.proof.case import Case

PRESETS = """
[[preset]]
number = 3
name = "Solo"
delay = { mix = "80%" }

[[preset]]
number = 4
name = "Outro"
drive = "out"

[[preset]]
number = 5
name = "Low"
delay = { mix = "20%" }
"""
SWEEP = """
[[sweep]]
name = "Swell"
pedal = "feet.exp-1"
presets = [5]
moves = [{ unit = "delay", control = "mix", heel = 0, toe = 127 }]
"""


@pytest.fixture
def case():
    return Case(open_text(BOARD + PRESETS).rig)


def told(case, number, before=None):
    preset = case.rig.preset(number)
    found = arriving(case, preset, case.rig.preset(before) if before else None)
    return {one.name: one.says for one in found}


def test_nothing_is_left_over_where_everything_is_set(case):
    assert "Mix" not in told(case, 1)
    assert "Mix" not in told(case, 3)


def test_in_general_two_ways_to_come_there(case):
    says = told(case, 4)["Mix"]
    assert "coming from" in says
    assert '3 "Solo"' in says or '5 "Low"' in says


def test_coming_from_a_preset_it_is_what_that_one_left(case):
    assert told(case, 4, before=3)["Mix"] == '80 %, left by 3 "Solo"'
    assert told(case, 4, before=5)["Mix"] == '20 %, left by 5 "Low"'


def test_what_the_preset_before_leaves_as_well(case):
    assert told(case, 4, before=4)["Mix"] == 'as it was before 4 "Outro"'


def test_a_pedal_may_have_moved_it():
    text = BOARD.replace('drive"\n', 'drive"\n', 1) + PRESETS + SWEEP
    text += '\n[[unit]]\nid = "pedal"\nchart = "ribston-treadle"\n'
    text += '[[cable]]\nfrom = "pedal.output"\nto = "feet.exp-1"\nends = "trs-6.35/trs-6.35"\n'
    assert "Swell" in told(Case(open_text(text).rig), 4, before=5)["Mix"]


def test_every_unit_by_its_name(case):
    found = arriving(case, case.rig.preset(4), None)
    assert {one.unit for one in found} <= {"Bramley Delay", "Braeburn Six"}
