"""A power plan of a rig as an edit of its document."""

from tests.opening import open_text
from thruline.app.plan_power import (
    plan_rig_power,
    power_cost_section,
    power_json,
    power_sections,
)
from thruline.proof.example_boards import a_cable, a_power_lead, a_unit, board
from thruline.proof.power_leads import CAUTION

SUPPLY = a_unit("supply", "elstar-supply")
DELAY = a_unit("delay", "bramley-delay", "channel = 3")
BASS = a_unit("bass", "worcester-bass", "channel = 5")
FEET = a_power_lead("supply.outlet-11", "feet.power-in")


def planned(*pieces, **more):
    return plan_rig_power(open_text(board(*pieces).rig), **more)


def rules_gone(found):
    return {one.rule for one in found.tried.effect.gone}


def test_a_weak_outlet_is_left_for_a_strong_one():
    found = planned(SUPPLY, DELAY, FEET, a_power_lead("supply.outlet-9", "delay.power-in"))
    assert "power.outlet-overloaded" in rules_gone(found)
    assert not found.tried.effect.new
    assert "supply.outlet-9 does not suit it" in next(
        one.says for one in found.feedings if one.unit.id == "delay"
    )


def test_a_missing_lead_is_added_and_the_wrong_polarity_put_right():
    wrong = a_cable("supply.outlet-11", "bass.power-in", ends="barrel-2.1/barrel-2.5")
    found = planned(SUPPLY, DELAY, BASS, wrong)
    assert {"power.unit-without-power", "power.wrong-polarity"} <= rules_gone(found)
    assert 'wiring = "crossed"' in found.tried.diff
    assert [one.unit.id for one in found.to_buy] == ["feet"]  # one outlet of 12 V for two


def test_two_leads_change_places():
    found = planned(
        SUPPLY,
        DELAY,
        a_unit("split", "cox-split"),
        FEET,
        a_power_lead("supply.outlet-10", "delay.power-in"),
        a_power_lead("supply.outlet-1", "split.power-in"),
    )
    outlets = {one.unit.id: one.outlet.socket for one in found.feedings}
    assert outlets["delay"] not in ("outlet-9", "outlet-10")
    assert "power.outlet-overloaded" in rules_gone(found)


def test_what_cannot_be_fed_is_to_be_bought():
    found = planned(a_unit("supply", "idared-supply"), DELAY)
    assert not found.is_whole
    assert [one.unit.id for one in found.to_buy] == ["feet", "delay"]
    assert "2 cannot be fed from what there is" in found.says
    titles = [section.title for section in power_sections(found)]
    assert titles == ["An outlet for each unit", "To buy", "Cautions"]
    assert power_json(found)["to_buy"][0]["unit"] == "feet"


def test_cautions_are_always_said():
    *_, cautions = power_sections(planned(SUPPLY))
    assert CAUTION in cautions.says
    assert CAUTION in power_json(planned(SUPPLY))["cautions"]


def test_an_applied_plan_plans_itself_again():
    found = planned(SUPPLY, DELAY)
    assert found.is_whole
    again = plan_rig_power(found.tried.after.opened)
    assert again.tried.edits == ()
    assert again.plan.cost == found.plan.cost


def test_what_cannot_be_fed_is_unplugged_so_that_others_can_be():
    first = a_power_lead("supply.outlet-1", "delay.power-in")
    found = planned(a_unit("supply", "idared-supply"), DELAY, first)
    assert {one.unit.id for one in found.to_buy} >= {"delay"}
    assert "the lead that it has is taken away" in power_json(found)["to_buy"][-1]["why"]
    assert not found.tried.after.opened.rig.cables


def test_a_second_lead_to_a_unit_is_taken_away():
    first = a_power_lead("supply.outlet-1", "delay.power-in", "length = 300")
    for second in (first, first.replace("outlet-1", "outlet-2")):
        found = planned(SUPPLY, DELAY, FEET, first, second)
        leads = [one for one in found.tried.after.opened.rig.cables if one.stop.unit == "delay"]
        assert len(leads) == 1
        assert leads[0].length == 300


ALL_AT_18 = "settings = { " + ", ".join(f'volts-{n} = "18 V"' for n in range(1, 5)) + " }"


def test_a_switch_is_turned_where_no_other_outlet_will_do():
    supply = a_unit("supply", "blenheim-supply", ALL_AT_18)
    found = planned(supply, DELAY, a_power_lead("supply.outlet-1", "delay.power-in"))
    (feeding,) = found.feedings
    assert (str(feeding.outlet), feeding.kind.switch) == ("supply.outlet-1", "9 V")
    assert "first turn Volts 1 to 9 V, and measure" in feeding.says
    assert [str(one.address) for one in found.tried.edits] == ["unit[supply].settings.volts-1"]
    assert "power.wrong-voltage" in rules_gone(found)
    assert plan_rig_power(found.tried.after.opened).tried.edits == ()


def test_an_outlet_that_stands_right_is_taken_before_a_switch_is_turned():
    supply = a_unit(
        "supply", "blenheim-supply", ALL_AT_18.replace('volts-3 = "18 V"', 'volts-3 = "9 V"')
    )
    found = planned(supply, DELAY, a_power_lead("supply.outlet-1", "delay.power-in"))
    (feeding,) = found.feedings
    assert str(feeding.outlet) == "supply.outlet-3"
    assert [str(one.address) for one in found.tried.edits] == [
        "cable[supply.outlet-1>delay.power-in].from"
    ]


def test_the_cost_is_told_part_by_part():
    found = planned(SUPPLY, DELAY, FEET)
    rows = power_cost_section(found).table.rows
    assert ("a supply in use", "1", "200", "200") in rows
    assert rows[-1] == ("in all", "", "", str(found.plan.cost))
    assert sum(int(row[3]) for row in rows[:-1]) == found.plan.cost
