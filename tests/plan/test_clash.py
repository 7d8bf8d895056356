"""The units that clash, held against trying every set of them."""

from itertools import combinations, product

from hypothesis import given, settings
from hypothesis import strategies as st

from thruline.plan.channels import ChannelWish, plan_channels
from thruline.plan.clash import clash

WIDTHS = st.sampled_from([1, 1, 1, 2])
ALLOWED = st.sets(st.integers(1, 4), min_size=1, max_size=2).map(lambda one: tuple(sorted(one)))


@st.composite
def crowds(draw, widths=WIDTHS):
    return [
        ChannelWish(id=f"unit-{number}", width=draw(widths), channels=draw(ALLOWED))
        for number in range(draw(st.integers(2, 6)))
    ]


def all_fit(units):
    for slots in product(*(list(unit.slots()) for unit in units)):
        taken = [slot for unit, at in zip(units, slots, strict=True) for slot in unit.taken(at)]
        if len(set(taken)) == len(taken):
            return True
    return not units


def smallest_size(units):
    sizes = (n for n in range(1, len(units) + 1) for some in combinations(units, n)
             if not all_fit(some))  # fmt: skip
    return next(sizes, None)


@settings(max_examples=100, deadline=None)
@given(crowds())
def test_a_clash_is_one_and_none_of_it_can_be_left_out(units):
    found = clash(units)
    assert (found is None) == all_fit(units) == (plan_channels(units) is not None)
    if found:
        those = [unit for unit in units if unit.id in found.units]
        assert not all_fit(those)
        assert all(all_fit([one for one in those if one is not out]) for out in those)
        assert found.is_smallest
        assert len(those) == smallest_size(units)


@settings(max_examples=60, deadline=None)
@given(crowds(widths=st.just(1)))
def test_with_one_channel_each_it_is_always_the_smallest(units):
    found = clash(units)
    assert found is None or found.is_smallest


def test_a_smaller_clash_is_found_than_the_first_that_counting_finds():
    pairs = [ChannelWish(id=f"pair-{number}", width=2) for number in range(30)]
    singles = [ChannelWish(id=f"single-{number}") for number in range(10)]
    threes = [ChannelWish(id=f"three-{place}", width=3, channels=(place,)) for place in (1, 3, 9)]
    found = clash([*singles, *pairs, *threes])
    assert found is not None
    assert found.units == ("three-1", "three-3")
    assert found.is_smallest


def test_many_that_want_the_same_are_proved_at_once():
    found = clash([ChannelWish(id=f"pair-{number:02}", width=2) for number in range(40)])
    assert found is not None
    assert len(found.units) == 9
    assert found.is_smallest


def test_a_unit_without_any_channel_clashes_alone():
    found = clash([ChannelWish(id="wide", width=3, channels=(15,)), ChannelWish(id="echo")])
    assert found is not None
    assert found.units == ("wide",)
    assert found.is_smallest
