"""The bring-up card."""

from tests.opening import open_text
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.papers.bring_up_card import bring_up_card
from thruline.plan.cables import Wish, plan_cables
from thruline.proof.board import Board

RIG = open_text(sample_text(ORCHARD_STREET)).rig
PLANS = plan_cables(RIG, Wish())
PAPER = bring_up_card(Board(RIG), PLANS)
ROWS = PAPER.sections[0].table.rows


def test_power_is_measured_before_anything_is_plugged_in():
    supplies = [one for one in RIG.units.values() if one.chart.outlets]
    for unit, row in zip(supplies, ROWS[: len(supplies)], strict=True):
        assert unit.name in row[2]
        assert row[3].count("DC") + row[3].count("AC") >= len(unit.chart.outlets)


def test_every_cable_is_plugged_in_once_and_after_both_its_ends():
    said = " ".join(row[2] for row in ROWS)
    for plan in PLANS:
        assert said.count(f"{plan.number} from ") == 1


def test_each_unit_has_a_step_that_names_what_must_be_seen():
    for unit in RIG.units.values():
        assert any(unit.name in row[2] for row in ROWS)
    assert all(row[3] for row in ROWS)
    assert [row[1] for row in ROWS] == [str(number) for number in range(1, len(ROWS) + 1)]


def test_sound_comes_after_all_units_and_presets_last():
    sound = next(place for place, row in enumerate(ROWS) if row[2].startswith("The sound"))
    assert len(ROWS) - sound - 1 == len(RIG.presets)
    assert "hearing" in PAPER.about[1]
    assert "Local codes" in PAPER.about[1]
