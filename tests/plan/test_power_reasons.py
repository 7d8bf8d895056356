"""Why each unit hangs where it does, in sentences."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.test_power import COSTS, KINDS, LOADS, MINUS, PLUS, kind, load
from tests.plan.test_power_wishes import consumer, lead, make_controller, rig_of, supply
from tests.rigs import make_unit
from thruline.plan.power import plan_power
from thruline.plan.power_reasons import (
    feedings,
    misfits,
    power_cost_parts,
    to_buy,
    wanted_volts,
)
from thruline.plan.power_wishes import PowerWishes, power_wishes


def told(*units, cables=(), outlets=2, charts=()):
    known = [make_controller(), supply(outlets=outlets), consumer("delay", milliamps=200),
             consumer("quiet", digital=False), consumer("big", milliamps=900),
             consumer("plus", polarity=PLUS), *charts]  # fmt: skip
    rig = rig_of(*units, cables=cables, charts=known)
    wishes = power_wishes(rig)
    plan = plan_power(wishes.loads, wishes.kinds, watts=wishes.watts)
    fed = {one.unit.id: one for one in feedings(rig, wishes, plan)}
    return fed, list(to_buy(rig, wishes, plan))


def test_who_stays_and_who_had_none():
    fed, _ = told(make_unit("a", "delay"), make_unit("b", "delay"), cables=[lead(1, "a")])
    assert (fed["a"].says, fed["b"].says) == ("stays where it is", "had no lead")
    assert (fed["a"].changes, fed["b"].changes) == (False, True)
    assert fed["a"].percent == 40


def test_who_shares_and_who_swaps():
    fed, _ = told(make_unit("a", "quiet"), make_unit("b", "quiet"), outlets=1)
    assert fed["a"].says == (
        "had no lead; shares the outlet with Orchard Quiet; none of them is digital"
    )
    fed, _ = told(make_unit("a", "plus"))
    assert fed["a"].crossed
    assert "swaps plus and minus" in fed["a"].says


def test_a_lead_makes_room():
    fed, _ = told(
        make_unit("a", "delay"), make_unit("b", "delay"), cables=[lead(1, "a"), lead(1, "b")]
    )
    assert "supply.outlet-1 is for Orchard Delay" in {fed["a"].says, fed["b"].says}


def test_what_to_buy_is_rounded_up_and_says_why():
    _, buy = told(make_unit("a", "big"), make_unit("b", "delay"), make_unit("c", "delay"))
    assert buy[0].outlet == "isolated, 9 V DC centre negative, at least 1150 mA"
    assert buy[0].why == "no outlet suits it: it gives 500 mA, wanted are 900 mA"
    _, buy = told(make_unit("a", "delay"), make_unit("b", "delay"), outlets=1)
    assert buy[0].why == "all outlets that suit it are wanted by other units"


@pytest.mark.parametrize(
    ("one", "where", "says"),
    [
        (load(), kind(ac=True, polarity=None), "it gives AC, wanted is DC"),
        (load(), kind(volts=12_000), "it gives 12 V, wanted is 9 V"),
        (load(milliamps=450), kind(), "450 of its 500 mA would be used, more than 80 %"),
        (load(), kind(isolated=False), "it is not isolated"),
        (load(polarity=PLUS), kind(), "it is centre negative, wanted is centre positive"),
        (load(zone=1), kind(), "it stands elsewhere"),
    ],
)
def test_what_is_wrong_with_an_outlet(one, where, says):
    assert next(misfits(one, where)) == says


def test_nothing_is_wrong_with_one_that_suits():
    assert not list(misfits(load(polarity=MINUS), kind()))
    assert wanted_volts(load(most_millivolts=18_000)) == "9 V to 18 V"


@given(LOADS, KINDS, st.none() | st.sampled_from([800, 1500]))
@settings(max_examples=40)
def test_the_parts_of_a_cost_add_up_to_it(loads, kinds, has):
    named = tuple(replace(one, id=f"unit-{at}") for at, one in enumerate(loads))
    watts = {one.supply: has for one in kinds}
    plan = plan_power(named, kinds, watts=watts)
    wishes = PowerWishes(
        loads=named, kinds=tuple(kinds), outlets=(), kind_of=(), watts=watts,
        leads={}, seconds=(), untold=(),
    )  # fmt: skip
    parts = power_cost_parts(wishes, plan, COSTS)
    assert sum(count * each for _, count, each in parts) == plan.cost
    assert all(count > 0 for _, count, _ in parts)
