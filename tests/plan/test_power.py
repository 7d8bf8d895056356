"""The power solver, held against trying everything."""

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thruline.plan.power import (
    SHARE,
    Kind,
    Load,
    PowerCosts,
    is_reversed,
    kinds_of,
    lead_cost,
    plan_power,
    suits,
)

COSTS = PowerCosts()
MINUS, PLUS = "centre-negative", "centre-positive"


def load(name="unit", volts=9000, milliamps=100, **more):
    facts = {"most_millivolts": volts, "polarity": MINUS, "starting": milliamps, **more}
    return Load(id=name, millivolts=volts, running=milliamps, **facts)


def kind(supply="a", volts=9000, milliamps=500, **more):
    return Kind(supply=supply, millivolts=volts, milliamps=milliamps,
                **{"polarity": MINUS, **more})  # fmt: skip


LOADS = st.lists(
    st.builds(
        load,
        milliamps=st.sampled_from([20, 60, 90]),
        polarity=st.sampled_from([MINUS, MINUS, PLUS]),
        may_share=st.booleans(),
        now=st.none() | st.integers(0, 1),
        volts=st.sampled_from([9000, 9000, 12_000]),
    ),
    min_size=1,
    max_size=3,
)
KINDS = st.lists(
    st.builds(
        kind,
        supply=st.sampled_from("ab"),
        volts=st.sampled_from([9000, 9000, 12_000]),
        milliamps=st.sampled_from([80, 100, 200]),
        isolated=st.booleans(),
        count=st.integers(1, 2),
    ),
    min_size=1,
    max_size=2,
    unique=True,
)


def cost_by_rule(loads, spots, kinds, watts):
    """The cost of a plan by the words of the rules; `spots` are pairs of kind and outlet, or None.

    None when the plan cannot be.
    """
    cost, groups = 0, {}
    for one, spot in zip(loads, spots, strict=True):
        if spot is None:
            cost += COSTS.unplaced + max(one.running, one.starting)
            continue
        if not suits(one, kinds[spot[0]]):
            return None
        cost += lead_cost(one, spot[0], kinds[spot[0]], costs=COSTS)
        groups.setdefault(spot, []).append(one)
    for (number, _), those in groups.items():
        rating = kinds[number].milliamps
        drawn = max(sum(one.running for one in those), sum(one.starting for one in those))
        if drawn > rating:
            return None
        cost += COSTS.over if drawn * 100 > rating * SHARE else 0
        if len(those) > 1:
            if any(not one.may_share or is_reversed(one, kinds[number]) for one in those):
                return None
            cost += COSTS.chained * len(those)
    costs = [supply_cost(groups, kinds, supply, has) for supply, has in watts.items()]
    return None if None in costs else cost + sum(costs)


def supply_cost(groups, kinds, supply, has):
    """What a supply as a whole costs; None when it cannot be."""
    on_it = [(one, spot) for spot, those in groups.items() for one in those
             if kinds[spot[0]].supply == supply]  # fmt: skip
    shared = [one for one, spot in on_it if not kinds[spot[0]].isolated]
    if len(shared) > 1 and not all(one.may_share for one in shared):
        return None
    drawn = sum(kinds[spot[0]].millivolts * one.running / 1000 for one, spot in on_it)
    if has is not None and drawn > has:
        return None
    over = has is not None and drawn * 100 > has * SHARE
    return (COSTS.over if over else 0) + (COSTS.supply if on_it else 0)


@settings(max_examples=150, deadline=None)
@given(LOADS, KINDS, st.none() | st.sampled_from([800, 1500]))
def test_nothing_that_can_be_tried_is_better(loads, kinds, has):
    loads = [
        Load(**{name: getattr(one, name) for name in Load.__slots__} | {"id": f"unit-{at}"})
        for at, one in enumerate(loads)
    ]
    watts = dict.fromkeys({one.supply for one in kinds}, has)
    outlets = [(at, n) for at, one in enumerate(kinds) for n in range(one.count)]
    tried = [cost_by_rule(loads, spots, kinds, watts)
             for spots in product([None, *outlets], repeat=len(loads))]  # fmt: skip
    plan = plan_power(loads, kinds, watts=watts)
    assert plan.is_best
    assert plan.cost == min(cost for cost in tried if cost is not None)
    spots = {name: (place.kind, n) for n, place in enumerate(plan.places) for name in place.units}
    told = [spots.get(one.id) for one in loads]
    assert cost_by_rule(loads, told, kinds, watts) == plan.cost


@settings(max_examples=80, deadline=None)
@given(LOADS, st.integers(1, 2), st.sampled_from([80, 200]), st.booleans())
def test_an_outlet_with_a_switch_is_used_in_one_position(loads, count, milliamps, other):
    loads = [replace(one, id=f"unit-{at}", now=None) for at, one in enumerate(loads)]
    low = kind(volts=9000, milliamps=100, count=count, bank=0, switch="9 V")
    high = replace(low, millivolts=12_000, milliamps=milliamps, switch="12 V", is_set=False)
    kinds = [low, high, *([kind("b", milliamps=80)] if other else [])]
    watts = dict.fromkeys({one.supply for one in kinds})
    outlets = [(at, n) for at, one in enumerate(kinds) for n in range(one.count)]
    tried = [cost_by_rule(loads, spots, kinds, watts)
             for spots in product([None, *outlets], repeat=len(loads))
             if not any({(0, n), (1, n)} <= set(spots) for n in range(count))]  # fmt: skip
    plan = plan_power(loads, kinds, watts=watts)
    assert plan.is_best
    assert plan.cost == min(cost for cost in tried if cost is not None)
    assert sum(place.kind in (0, 1) for place in plan.places) <= count


def test_what_does_not_suit():
    assert suits(load(), kind())
    assert not suits(load(), kind(volts=12_000))
    assert suits(load(most_millivolts=18_000), kind(volts=12_000))
    assert not suits(load(), kind(ac=True, polarity=None))
    assert not suits(load(starting=600), kind())
    assert not suits(load(zone=1), kind())
    assert not suits(load(), kind(connector="usb-a"))
    assert suits(load(polarity=PLUS), kind())
    assert not suits(load(polarity=PLUS), kind(isolated=False))


def test_two_share_only_where_both_may():
    quiet = [load("a", may_share=True), load("b", may_share=True)]
    assert plan_power(quiet, [kind()], watts={"a": None}).places[0].units == ("a", "b")
    assert plan_power(quiet, [kind()], watts={"a": None}, chains=False).unplaced
    noisy = [load("a", may_share=True), load("b")]
    assert len(plan_power(noisy, [kind()], watts={"a": None}).unplaced) == 1


def test_the_wanting_are_served_first():
    plan = plan_power([load("a", milliamps=50), load("b", milliamps=300)], [kind()], watts={})
    assert plan.unplaced == ("a",)


def test_a_supply_gives_no_more_than_it_has():
    units = [load("a", milliamps=400), load("b", milliamps=400)]
    plan = plan_power(units, [kind(count=2)], watts={"a": 5000})
    assert len(plan.unplaced) == 1


def test_nobody_wants_anything():
    plan = plan_power([], [kind()], watts={"a": None})
    assert (plan.places, plan.unplaced, plan.cost) == ((), (), 0)


@given(st.lists(st.sampled_from([kind(), kind(milliamps=100), kind("b")]), max_size=6))
def test_outlets_are_gathered_and_none_is_lost(outlets):
    kinds, places = kinds_of(outlets)
    assert sum(one.count for one in kinds) == len(outlets) == len(places)
    assert all(kinds[at].milliamps == one.milliamps and kinds[at].supply == one.supply
               for at, one in zip(places, outlets, strict=True))  # fmt: skip


@pytest.mark.parametrize(("polarity", "crossed"), [(MINUS, False), (PLUS, True), (None, False)])
def test_when_a_lead_swaps(polarity, crossed):
    assert is_reversed(load(polarity=polarity), kind()) is crossed


def test_leaving_one_out_can_be_cheaper_than_a_supply():
    units = [load("a", milliamps=50), load("b", milliamps=60)]
    cheap = PowerCosts(unplaced=10, supply=1000)
    plan = plan_power(units, [kind(count=2)], watts={"a": None}, costs=cheap)
    assert (plan.unplaced, plan.cost) == (("a", "b"), 2 * 10 + 50 + 60)
