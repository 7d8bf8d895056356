import random
from unittest.mock import patch

import numpy as np
import pytest
from hypothesis import given

from tests.audit.boards import plan
from tests.audit.heard import hearings
from thruline.audit.build import build
from thruline.audit.explain import explain
from thruline.audit.fault import Family, Fault, in_order
from thruline.audit.hopes import Hopes
from thruline.audit.listed import every_fault
from thruline.audit.meant import NO_KEY
from thruline.audit.score import Fit

MEANT = plan()
ALL = np.ones(len(MEANT.steps), np.bool_)
EVERY = [*every_fault(MEANT), Fault(Family.NUMBER, 1, 21, 99)]


def keys_of(faults):
    keys = build(MEANT, faults, ALL)
    return np.sort(keys[keys != NO_KEY])


@pytest.mark.parametrize("fault", EVERY, ids=lambda one: f"{one.family}-{one[1:]}")
def test_every_single_mistake_is_found(fault):
    found = explain(MEANT, keys_of((fault,)), ALL).causes
    assert (keys_of(found[0].faults) == keys_of((fault,))).all()
    assert fault in (*found[0].faults, *(one for same in found[0].same for one in same))


@pytest.mark.parametrize("seed", range(25))
def test_two_mistakes_are_found_though_something_is_lost(seed):
    rng = random.Random(seed)
    pair = in_order(tuple(rng.sample(EVERY, 2)))
    keys = keys_of(pair)
    heard = keys[[rng.random() > 0.01 for _ in keys]]
    found = explain(MEANT, heard, ALL)
    assert np.array_equal(keys_of(found.causes[0].faults), keys)


def test_no_mistake_is_found_where_there_is_none():
    for seed in range(20):
        rng = random.Random(seed)
        keys = keys_of(())
        heard = keys[[rng.random() > 0.02 for _ in keys]]
        found = explain(MEANT, heard, ALL)
        assert found.causes[0].faults == ()
        assert abs(sum(one.odds for one in found.causes) - 1) < 1e-9


def test_what_sounds_the_same_is_one_answer():
    last = [Fault(Family.SHUT, line) for line in range(len(MEANT.lines))]
    found = explain(MEANT, keys_of((last[0],)), ALL).causes[0]
    assert {found.faults, *found.same} >= {(one,) for one in last}


@pytest.mark.parametrize(
    "moved",
    [one for one in EVERY if one.family in (Family.CHANNEL, Family.SWAPPED) and 1 in one[1:3]],
    ids=lambda one: f"{one.family}-{one[1:]}",
)
def test_a_wrong_control_number_is_found_where_its_unit_is_on_another_channel(moved):
    pair = in_order((Fault(Family.NUMBER, 1, 21, 99), moved))
    found = explain(MEANT, keys_of(pair), ALL)
    assert np.array_equal(keys_of(found.causes[0].faults), keys_of(pair))


def everything(_, kin):
    return ((one, Fit(0, 0, 0)) for one in kin.faults)


@given(hearings())
def test_nothing_is_left_out_that_trying_everything_would_find(hearing):
    done, keys = hearing
    found = explain(MEANT, keys, done)
    with patch.object(Hopes, "bests", everything):
        slowly = explain(MEANT, keys, done)
    assert found.causes == slowly.causes
    assert found.fit == slowly.fit
