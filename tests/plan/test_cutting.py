"""Cutting lists, held against trying everything on small sets."""

import random
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thruline.plan.cutting import cut, least_spools

SIZES = st.lists(st.integers(1, 20), max_size=8)
RESTS = st.lists(st.integers(1, 20), max_size=2)


def fewest(sizes, spool, rests):
    """The fewest new spools, by trying every place for every piece; None where one is too long."""

    @cache
    def rest_of(at, rooms):
        if at == len(order):
            return 0
        best = None
        for place in sorted({room for room in rooms if room >= order[at]}):
            left = list(rooms)
            left.remove(place)
            best = least(best, rest_of(at + 1, tuple(sorted([*left, place - order[at]]))))
        if spool >= order[at]:
            more = rest_of(at + 1, tuple(sorted([*rooms, spool - order[at]])))
            best = least(best, None if more is None else more + 1)
        return best

    order = sorted(sizes, reverse=True)
    return rest_of(0, tuple(sorted(rests)))


def least(one, other):
    return min((each for each in (one, other) if each is not None), default=None)


@settings(max_examples=300, deadline=None)
@given(SIZES, RESTS)
def test_every_piece_is_cut_once_and_the_bound_holds(sizes, rests):
    found = cut(sizes, 20, rests)
    cut_once = sorted(at for one in found.cuts for at in one.pieces)
    assert cut_once == list(range(len(sizes)))
    assert all(one.left == one.stock - sum(sizes[at] for at in one.pieces) >= 0
               for one in found.cuts)  # fmt: skip
    used = sorted(one.stock for one in found.cuts if one.is_rest)
    assert all(used.count(one) <= rests.count(one) for one in used)
    best = fewest(tuple(sizes), 20, rests)
    assert found.bound <= best <= found.spools
    assert found.is_best == (found.spools == found.bound)


@settings(max_examples=200, deadline=None)
@given(st.lists(st.integers(1, 12), min_size=1, max_size=8))
def test_without_rests_small_sets_are_at_the_bound_or_one_above(sizes):
    found = cut(sizes, 12)
    assert found.spools - found.bound <= 1
    assert found.spools - fewest(tuple(sizes), 12, ()) <= 1


def test_what_no_spool_holds_is_told():
    found = cut([30, 5, 25], 20, rests=[26])
    assert found.too_long == (0,)
    assert sorted(at for one in found.cuts for at in one.pieces) == [1, 2]


def test_pieces_that_only_rests_hold_find_room_beside_each_other():
    found = cut([43, 35, 46, 50, 15, 42, 45, 21], 25, rests=[83, 111, 115])
    assert found.too_long == ()
    assert sorted(at for one in found.cuts for at in one.pieces) == [*range(8)]


def test_one_piece_without_room_leaves_the_others_cut():
    found = cut([30, 28, 5], 20, rests=[31])
    assert found.too_long == (0,)
    assert sorted(at for one in found.cuts for at in one.pieces) == [1, 2]


@given(st.lists(st.integers(1, 40), max_size=9), st.lists(st.integers(10, 60), max_size=4))
def test_only_what_no_spool_holds_is_ever_left_uncut(sizes, rests):
    found = cut(sizes, 20, rests=rests)
    assert all(sizes[at] > 20 for at in found.too_long)
    done = sorted(at for one in found.cuts for at in one.pieces)
    assert sorted([*done, *found.too_long]) == [*range(len(sizes))]
    assert all(sum(sizes[at] for at in one.pieces) + one.left == one.stock for one in found.cuts)
    assert all(one.left >= 0 for one in found.cuts)


def test_a_rest_is_used_before_a_spool_is_begun():
    found = cut([9, 8], 20, rests=[18])
    assert (found.spools, found.bound) == (0, 0)
    assert found.cuts[0].left == 1


def test_short_pieces_are_kept_for_where_they_are_needed():
    sizes = [11, 9, 8, 7, 5, 5, 4, 3, 3, 2, 2, 1]
    assert cut(sizes, 20).spools == 3


@pytest.mark.parametrize("seed", [98, 282])
def test_what_is_left_over_gathers_until_a_spool_is_saved(seed):
    dice = random.Random(f"patch 150 {seed}")
    found = cut([dice.randrange(80, 601, 10) + 32 for _ in range(150)], 3000)
    assert (found.spools, found.bound) == (18, 18)
    assert sum(one.left for one in found.cuts) == 30


@pytest.mark.parametrize(
    ("sizes", "bound"), [([], 0), ([11, 11, 11], 3), ([10, 10, 1], 2), ([7] * 4, 2), ([20], 1)]
)
def test_the_bound(sizes, bound):
    assert least_spools(sizes, 20) == bound


def test_nothing_to_cut():
    assert cut([], 20).cuts == ()
