"""The sharper bound is a bound, and sharper."""

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.plan.test_cutting import fewest
from thruline.plan.cutting import least_spools
from thruline.plan.cutting_bound import sharper_bound


@settings(max_examples=100, deadline=None)
@given(st.lists(st.integers(1, 20), min_size=1, max_size=7))
def test_no_way_of_cutting_is_below_it(sizes):
    bound = sharper_bound(sizes, 20, patterns=[[one] for one in sizes], enough=len(sizes))
    assert bound <= fewest(tuple(sizes), 20, ())
    assert bound >= -(-sum(sizes) // 20)


def test_it_sees_that_three_do_not_fit():
    sizes = [7] * 6  # two on each of three spools of 20; by length it could be a little over two
    assert sharper_bound(sizes, 20, patterns=[[one] for one in sizes], enough=len(sizes)) == 3
    sizes = [8, 8, 8, 6, 6, 6, 6, 6]  # 54 of 60
    assert sharper_bound(
        sizes, 20, patterns=[[one] for one in sizes], enough=len(sizes)
    ) >= least_spools(sizes, 20)


def test_nothing_takes_no_spool():
    assert sharper_bound([], 20, patterns=[], enough=0) == 0


def test_what_is_known_is_kept_and_measures_do_not_matter():
    sizes = [7] * 6
    alone = [[one] for one in sizes]
    assert sharper_bound(sizes, 20, patterns=alone, enough=6, known=4) == 4
    longer = [one * 50 for one in sizes]
    assert sharper_bound(longer, 1000, patterns=[[one] for one in longer], enough=6) == 3
