from collections import Counter

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from thruline.audit.fault import Family
from thruline.audit.meant import NO_KEY
from thruline.audit.score import Fit, changed_fit, counted, fault_bits, fit

keys = st.lists(st.integers(0, 12) | st.just(NO_KEY), max_size=30).map(
    lambda found: np.array(found, np.int64)
)


def by_hand(predicted, heard):
    want, came = (Counter(one[one != NO_KEY].tolist()) for one in (predicted, heard))
    return Fit(want.total(), (want - came).total(), (came - want).total())


@given(keys, keys)
def test_a_fit_is_what_counting_by_hand_gives(predicted, heard):
    assert fit(counted(predicted), counted(heard)) == by_hand(predicted, heard)


@given(keys, keys, st.data())
def test_a_changed_fit_is_the_fit_of_what_changed(predicted, heard, data):
    places = data.draw(st.lists(st.integers(0, 30), unique=True).map(
        lambda found: [one for one in found if one < predicted.size]))  # fmt: skip
    new = data.draw(st.lists(st.integers(0, 12) | st.just(NO_KEY),
                             min_size=len(places), max_size=len(places)))  # fmt: skip
    after = predicted.copy()
    after[places] = new
    counts, came = counted(predicted), counted(heard)
    found = changed_fit(
        fit(counts, came), counts, came, gone=predicted[places], new=np.array(new, np.int64)
    )
    assert found == by_hand(after, heard)


@given(st.integers(1, 5000), st.integers(0, 50))
def test_less_that_differs_is_shorter(predicted, some):
    missing = min(some, predicted // 2)
    assert Fit(predicted, missing, some).bits < Fit(predicted, missing, some + 1).bits
    if missing < predicted // 2:
        assert Fit(predicted, missing, 0).bits < Fit(predicted, missing + 1, 0).bits


def test_a_rarer_mistake_costs_more():
    assert fault_bits(Family.NUMBERING, 8) < fault_bits(Family.FILTER, 8)
    assert fault_bits(Family.NUMBERING, 8) < fault_bits(Family.NUMBERING, 9)
