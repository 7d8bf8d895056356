import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.audit.boards import plan
from thruline.audit.build import STEP_AT, build, channels_with, key_of, parts_in, status_in, touched
from thruline.audit.fault import Family, Fault
from thruline.audit.listed import every_fault
from thruline.audit.meant import NO_KEY

MEANT = plan()
EVERY = [*every_fault(MEANT), Fault(Family.NUMBER, 0, 20, 77)]
ALL = np.ones(len(MEANT.steps), np.bool_)
faults = st.lists(st.sampled_from(EVERY), max_size=3, unique=True)
numbers = st.integers(0, 127)


parts = st.tuples(
    *(st.integers(0, 500), st.integers(0, 63), st.booleans(), st.integers(0x80, 0xFF)),
    *(numbers, st.integers(0, (1 << 14) - 1)),
)


@given(parts)
def test_a_key_keeps_all_its_parts(found):
    step, tap, travel, status, *both = found
    key = key_of(
        step, tap, travel=int(travel), kind=status >> 4, channel=status & 0x0F, numbers=tuple(both)
    )
    assert parts_in(key) == found
    assert status_in(np.array([key])).tolist() == [status]


@given(faults, st.sampled_from(EVERY))
def test_a_mistake_changes_only_the_rows_that_it_touches(some, one):
    before, after = build(MEANT, some, ALL), build(MEANT, (*some, one), ALL)
    rows = touched(MEANT, one)
    differs = np.flatnonzero(before != after)
    assert set(differs.tolist()) <= set(rows.tolist())
    assert (build(MEANT, (*some, one), ALL, rows=rows) == after[rows]).all()


@given(faults, st.sets(st.integers(0, len(MEANT.steps) - 1)))
def test_only_what_was_pressed_is_heard(some, steps):
    pressed = np.zeros(len(MEANT.steps), np.bool_)
    pressed[list(steps)] = True
    keys = build(MEANT, some, pressed)
    assert {parts_in(key)[0] for key in keys[keys != NO_KEY].tolist()} <= steps


@pytest.mark.parametrize("family", [Family.SWAPPED, Family.REVERSED])
def test_an_exchange_made_twice_is_none(family):
    one = next(fault for fault in EVERY if fault.family is family)
    assert (build(MEANT, (one,), ALL) != build(MEANT, (), ALL)).any()
    if family is Family.REVERSED:
        assert (build(MEANT, (one, one), ALL) == build(MEANT, (), ALL)).all()


def test_every_mistake_does_something():
    plain = build(MEANT, (), ALL)
    for one in EVERY:
        assert (build(MEANT, (one,), ALL) != plain).any(), one


def test_slots_move_whole_presets():
    later = build(MEANT, (Fault(Family.SLOTS, 4, 1),), ALL)
    plain = build(MEANT, (), ALL)
    rows = MEANT.rows
    fifth = (rows.step == 4) & ~rows.old
    assert ((later - plain)[fifth] == 1 << STEP_AT).all()
    assert (later[rows.step == 11] == NO_KEY).all()
    assert (later[rows.step == 12] == plain[rows.step == 12]).all(), "a sweep stands in no slot"


def test_where_units_are_addressed_is_where_their_rows_are_heard():
    for fault in EVERY:
        channels = channels_with(MEANT, [fault])
        keys = build(MEANT, [fault], ALL)
        heard = keys != NO_KEY
        units = MEANT.rows.unit[heard]
        mine = (units >= 0) & (MEANT.rows.kind[heard] <= 0xE)
        assert ((status_in(keys[heard]) & 0x0F)[mine] == channels[units[mine]]).all()
