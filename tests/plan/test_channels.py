"""The channel solver, held against trying everything."""

from itertools import combinations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thruline.plan import channels
from thruline.plan.channels import ChannelWish, Costs, Plan, Slot, cost_of, plan_channels
from thruline.plan.clash import clash

COSTS = Costs()
SLOTS = st.builds(Slot, st.integers(0, 1), st.integers(1, 6))


def one_wish(number):
    allowed = st.sets(st.integers(1, 4), min_size=1, max_size=3)
    return st.builds(
        ChannelWish,
        id=st.just(f"unit-{number}"),
        width=st.sampled_from([1, 1, 2]),
        channels=allowed.map(lambda those: tuple(sorted(those))),
        lines=st.sampled_from([(0,), (1,), (0, 1)]),
        now=st.none() | SLOTS,
        ideal=st.none() | SLOTS,
        omni=st.sampled_from([False, False, False, True]),
        kinds=st.sampled_from([frozenset("p"), frozenset("c"), frozenset("pc")]),
        is_settled=st.booleans(),
    )


@st.composite
def wishes(draw):
    """A few units in so little room that they get into each other's way."""
    return [draw(one_wish(number)) for number in range(draw(st.integers(1, 4)))]


def cost_by_rule(units, slots, filtered):
    """The cost of a plan by the words of the rule; None when the plan cannot be."""
    taken = [slot for unit, at in zip(units, slots, strict=True) for slot in unit.taken(at)]
    if len(set(taken)) < len(taken):
        return None
    for unit, slot in zip(units, slots, strict=True):
        if unit.omni and unit.id not in filtered:
            for other, at in zip(units, slots, strict=True):
                if other is not unit and at.line == slot.line and other.kinds & unit.kinds:
                    return None
    parts = [cost_of(unit, slot, COSTS) for unit, slot in zip(units, slots, strict=True)]
    return sum(parts) + COSTS.filter * len(filtered)


def best_by_trying(units):
    found = []
    omni = [unit.id for unit in units if unit.omni]
    for bits in product([False, True], repeat=len(omni)):
        filtered = {name for name, bit in zip(omni, bits, strict=True) if bit}
        for slots in product(*(list(unit.slots()) for unit in units)):
            cost = cost_by_rule(units, slots, filtered)
            if cost is not None:
                found.append(cost)
    return min(found, default=None)


@settings(max_examples=120, deadline=None)
@given(wishes())
def test_nothing_that_can_be_tried_is_better(units):
    plan = plan_channels(units, COSTS)
    best = best_by_trying(units)
    assert (plan.cost if plan else None) == best
    if plan:
        slots = [plan.slots[unit.id] for unit in units]
        assert cost_by_rule(units, slots, plan.filtered) == plan.cost


def test_what_is_set_stays_and_the_cheaper_one_moves():
    delay = ChannelWish(id="delay", now=Slot(0, 3))
    echo = ChannelWish(id="echo", now=Slot(0, 3), is_settled=False)
    plan = plan_channels([delay, echo])
    assert plan is not None
    assert plan.slots["delay"] == Slot(0, 3)
    assert plan.slots["echo"].channel != 3


def test_free_units_follow_the_order_of_the_sound():
    units = [ChannelWish(id=name, ideal=Slot(0, place + 2)) for place, name in enumerate("abcd")]
    plan = plan_channels(units)
    assert plan is not None
    assert [plan.slots[name].channel for name in "abcd"] == [2, 3, 4, 5]


@pytest.mark.parametrize(
    ("lines", "filtered"), [((0,), {"omni"}), ((0, 1), set())], ids=["one line", "a line to spare"]
)
def test_a_filter_is_bought_only_where_no_line_is_free(lines, filtered):
    kinds = frozenset({"program"})
    units = [
        ChannelWish(id="omni", omni=True, lines=lines, kinds=kinds),
        ChannelWish(id="other", lines=(0,), kinds=kinds, now=Slot(0, 2)),
    ]
    plan = plan_channels(units)
    assert isinstance(plan, Plan)
    assert plan.filtered == filtered


def test_a_unit_of_several_channels_ends_by_sixteen():
    plan = plan_channels([ChannelWish(id="bass", width=4, channels=(13, 14, 16))])
    assert plan is not None
    assert plan.slots["bass"].channel == 13


def test_no_room_is_no_plan():
    assert plan_channels([ChannelWish(id=name, channels=(13,)) for name in "ab"]) is None
    assert plan_channels([ChannelWish(id="wide", width=3, channels=(15, 16))]) is None


@settings(max_examples=60, deadline=None)
@given(wishes())
def test_all_at_once_is_as_good_as_case_by_case(units):
    by_case = plan_channels(units, COSTS)
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(channels, "MOST_CASES", 0)
        at_once = plan_channels(units, COSTS)
    assert (at_once is None) == (by_case is None)
    if at_once and by_case:
        assert at_once.cost == by_case.cost == at_once.bound
        slots = [at_once.slots[unit.id] for unit in units]
        assert cost_by_rule(units, slots, at_once.filtered) == at_once.cost


def test_very_many_omni_units_take_no_longer():
    both = frozenset({"program", "note"})
    units = [
        ChannelWish(id=f"unit-{n}", omni=n < 14, kinds=both, now=Slot(0, 3)) for n in range(16)
    ]
    plan = plan_channels(units)
    assert plan is not None
    assert plan.is_best
    assert len(plan.filtered) == 14


@st.composite
def listeners(draw):
    """Units that hear some of three outputs, and can be sent over any of those."""
    units = []
    for number in range(draw(st.integers(2, 4))):
        lines = tuple(draw(st.lists(st.integers(0, 2), min_size=1, max_size=3, unique=True)))
        units.append(
            ChannelWish(
                id=f"unit-{number}",
                channels=tuple(sorted(draw(st.sets(st.integers(1, 3), min_size=1)))),
                lines=lines,
                hears=frozenset(lines if len(lines) > 1 else ()),
                now=draw(st.none() | st.builds(Slot, st.just(lines[0]), st.integers(1, 3))),
            )
        )
    return units


def hear_each_other(one, at, other, there):
    """Whether either unit hears, on its channel, what is sent to the other."""
    heard = ({at.line, *one.hears}, {there.line, *other.hears})
    return at.channel == there.channel and (there.line in heard[0] or at.line in heard[1])


def tried_all(units, costs):
    """The least cost of all ways to place them in which none hears another's messages."""
    best = None
    for slots in product(*(list(unit.slots()) for unit in units)):
        placed = list(zip(units, slots, strict=True))
        if not any(hear_each_other(*a, *b) for a, b in combinations(placed, 2)):
            cost = sum(cost_of(unit, slot, costs) for unit, slot in placed)
            best = cost if best is None else min(best, cost)
    return best


@settings(max_examples=150, deadline=None)
@given(listeners())
def test_over_several_outputs_nothing_that_can_be_tried_is_better(units):
    costs = Costs()
    plan = plan_channels(units, costs)
    least = tried_all(units, costs)
    assert (plan.cost if plan else None) == least
    found = clash(units)
    assert (found is None) == (least is not None)
    if found:
        assert found.is_smallest
        sets = [those for n in range(1, len(units) + 1) for those in combinations(units, n)]
        smallest = next(those for those in sets if tried_all(those, costs) is None)
        assert len(found.units) == len(smallest)
