"""The units that clash, held against trying every set of them."""

from itertools import combinations, product

from hypothesis import given, settings
from hypothesis import strategies as st

from thruline.plan.channels import Sitter, plan_channels
from thruline.plan.clash import clash

WIDTHS = st.sampled_from([1, 1, 1, 2])
ALLOWED = st.sets(st.integers(1, 4), min_size=1, max_size=2).map(lambda one: tuple(sorted(one)))


@st.composite
def crowds(draw, widths=WIDTHS):
    return [
        Sitter(id=f"unit-{number}", width=draw(widths), channels=draw(ALLOWED))
        for number in range(draw(st.integers(2, 6)))
    ]


def can_sit(units):
    for seats in product(*(list(unit.seats()) for unit in units)):
        taken = [seat for unit, at in zip(units, seats, strict=True) for seat in unit.taken(at)]
        if len(set(taken)) == len(taken):
            return True
    return not units


def smallest_size(units):
    sizes = (n for n in range(1, len(units) + 1) for some in combinations(units, n)
             if not can_sit(some))  # fmt: skip
    return next(sizes, None)


@settings(max_examples=100, deadline=None)
@given(crowds())
def test_a_clash_is_one_and_none_of_it_can_be_left_out(units):
    found = clash(units)
    assert (found is None) == can_sit(units) == (plan_channels(units) is not None)
    if found:
        those = [unit for unit in units if unit.id in found.units]
        assert not can_sit(those)
        assert all(can_sit([one for one in those if one is not out]) for out in those)
        if found.is_smallest:
            assert len(those) == smallest_size(units)


@settings(max_examples=60, deadline=None)
@given(crowds(widths=st.just(1)))
def test_with_one_channel_each_it_is_always_the_smallest(units):
    found = clash(units)
    assert found is None or found.is_smallest


def test_a_unit_without_any_channel_clashes_alone():
    found = clash([Sitter(id="wide", width=3, channels=(15,)), Sitter(id="echo")])
    assert found is not None
    assert found.units == ("wide",)
    assert found.is_smallest
