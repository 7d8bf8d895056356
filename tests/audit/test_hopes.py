from dataclasses import replace

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from tests.audit.heard import EVERY, MEANT, hearings, keys_with, some_faults
from thruline.audit.build import build
from thruline.audit.fault import Family
from thruline.audit.ground import ground
from thruline.audit.hopes import Hopes, is_lost
from thruline.audit.listed import kin_of
from thruline.audit.score import counted, fit

SLACK = 1e-6
CHANNELS = np.arange(256) & 0x0F
UNEVEN = replace(MEANT, cut=MEANT.cut & (CHANNELS % 2 == 0))
"""The same board, where every output passes on only every other channel."""


def bests_on(held):
    """Every mistake that is any good, with the best that may be hoped for from it."""
    hopes = Hopes(held)
    return {fault: best for kin in kin_of(EVERY) for fault, best in hopes.bests(kin)}


@given(st.sampled_from([MEANT, UNEVEN]), hearings(), some_faults)
def test_no_mistake_does_better_than_was_hoped(meant, hearing, faults):
    done, keys = hearing
    heard = counted(keys)
    held = ground(meant, faults, pressed=done, heard=heard)
    bests = bests_on(held)
    for one in EVERY:
        new = build(meant, (*faults, one), done)
        differs = new != held.keys
        if one in faults or not differs.any():
            continue
        best = bests.get(one)
        if best is None:
            helps = int((differs & held.lacking).sum())
            assert is_lost(helps, int(differs.sum()) - helps), one
        else:
            assert fit(counted(new), heard).bits >= best.bits - SLACK, one


@given(st.integers(0, 50), st.integers(0, 50))
def test_more_help_and_less_harm_are_never_worse(helps, harms):
    assert is_lost(helps, harms) or not is_lost(helps + 1, max(0, harms - 1))


DONE = np.ones(len(MEANT.steps), np.bool_)


def hoped_for(faults):
    """What is worth a try when these mistakes were made."""
    return set(bests_on(ground(MEANT, (), pressed=DONE, heard=keys_with(faults, DONE))))


def test_what_was_done_is_hoped_for():
    assert all(one in hoped_for((one,)) for one in EVERY)


def test_where_nothing_is_amiss_only_another_version_may_bring_something():
    about_versions = {Family.STALE, Family.STALE_ALL, Family.SLOTS}
    assert {one.family for one in hoped_for(())} <= about_versions
