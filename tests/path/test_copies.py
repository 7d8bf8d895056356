import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.path.boards import link_between
from tests.rigs import make_line, midi_in, midi_out
from thruline.path.copies import (
    BUDGET_NS,
    CRYSTAL_BUDGET_NS,
    FRESH,
    Copies,
    budget_ns,
    too_long,
)
from thruline.path.network import read_network
from thruline.rig.cable import Jack


def test_the_budgets():
    assert BUDGET_NS == 7_920
    assert CRYSTAL_BUDGET_NS == 13_939
    assert budget_ns(0) == 14_000


@given(st.integers(1, 20_000))
def test_as_many_copies_as_the_budget_holds_are_within_it_and_one_more_is_not(skew):
    most = BUDGET_NS // skew
    assert Copies(most, most * skew).within() is True
    assert Copies(most + 1, (most + 1) * skew).within() is False


def carrier(**chart):
    return read_network(make_line(1, **chart)).outputs[Jack("unit-1", "midi-out")]


def copying(skew):
    output = {"socket": "midi-out", "ways": ["thru-wire"]}
    return carrier(output=[output if skew is None else {**output, "skew-ns": skew}])


def test_skew_adds_up_until_an_output_begins_anew():
    twice = FRESH.through(copying(1000)).through(copying(2000))
    assert twice == Copies(2, 3000)
    assert twice.through(carrier(ways=["thru-soft"])) == FRESH


def test_a_skew_that_is_not_known():
    unknown = FRESH.through(copying(None)).through(copying(1000))
    assert unknown == Copies(2, None)
    assert unknown.within() is None


def lengths(link):
    return [(one.length_mm, one.limit_mm) for one in too_long(link)]


@pytest.mark.parametrize(("length", "found"), [(15_000, []), (15_001, [(15_001, 15_000)])])
def test_a_cable_of_more_than_fifteen_metres(length, found):
    link = link_between(midi_out("out"), midi_in("in"), "din5/din5", length=length)
    assert lengths(link) == found


@pytest.mark.parametrize(("length", "found"), [(2_000, []), (2_001, [(2_001, 2_000)])])
def test_an_adapter_lead_of_more_than_two_metres(length, found):
    into = midi_in("in", "trs-3.5")
    link = link_between(midi_out("out"), into, "din5/trs-3.5", length=length)
    assert lengths(link) == found


def test_a_jack_lead_is_no_adapter_lead():
    out, into = midi_out("out", "trs-3.5"), midi_in("in", "trs-3.5")
    assert lengths(link_between(out, into, "trs-3.5/trs-3.5", length=5_000)) == []


def test_a_very_long_adapter_lead_is_told_once():
    into = midi_in("in", "trs-3.5")
    link = link_between(midi_out("out"), into, "din5/trs-3.5", length=20_000)
    assert lengths(link) == [(20_000, 2_000)]
