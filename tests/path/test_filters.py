import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.path.filters import NOTHING, SAMPLES, Filter, channel_of, kinds_of
from thruline.rig.chart import Traffic

statuses = st.integers(0x80, 0xFF)
filters = st.builds(
    Filter,
    st.frozensets(st.sampled_from(list(Traffic)), max_size=3),
    st.frozensets(st.integers(1, 16), max_size=3),
)


@pytest.mark.parametrize(
    ("status", "kinds"),
    [
        (0x83, {"note"}), (0x90, {"note"}), (0xAF, {"note"}), (0xB0, {"control"}),
        (0xC1, {"program"}), (0xD0, set()), (0xE0, set()), (0xF0, {"system-exclusive"}),
        (0xF7, {"system-exclusive"}), (0xF2, set()), (0xF8, {"clock", "real-time"}),
        (0xFA, {"real-time"}), (0xFE, {"real-time"}), (0xFF, {"real-time"}),
    ],
)  # fmt: skip
def test_kinds_of_messages(status, kinds):
    assert kinds_of(status) == kinds


@given(statuses)
def test_channels_are_counted_from_one_and_only_below_f0(status):
    channel = channel_of(status)
    assert (channel is None) == (status >= 0xF0)
    assert channel is None or channel == status % 16 + 1


def test_samples_stand_for_their_kinds():
    for kind, samples in SAMPLES.items():
        assert all(kind in kinds_of(status) for status in samples)
    assert set(SAMPLES) == set(Traffic) - {Traffic.OWN_CHANNEL}


@given(filters, filters, statuses)
def test_two_filters_in_a_row_stop_what_either_stops(first, second, status):
    both = first.with_(second)
    assert both.stops(status) == (first.stops(status) or second.stops(status))
    assert both.may_stop(status) == (first.may_stop(status) or second.may_stop(status))


@given(filters, statuses)
def test_what_is_stopped_may_be_stopped(held, status):
    assert held.may_stop(status) or not held.stops(status)
    assert held.with_(NOTHING) == held


def test_a_channel_is_held_back_whatever_the_kind():
    held = Filter(channels=frozenset({3}))
    assert all(held.stops(kind | 2) for kind in range(0x80, 0xF0, 0x10))
    assert not held.stops(0xC3)
    assert not held.stops(0xF2)


def test_an_own_channel_that_nobody_knows_may_be_any():
    held = Filter(frozenset({Traffic.OWN_CHANNEL}))
    assert not held.stops(0xC0)
    assert held.may_stop(0xC0)
    assert not held.may_stop(0xF8)


def test_clock_is_real_time_but_start_is_no_clock():
    assert Filter(frozenset({Traffic.REAL_TIME})).stops(0xF8)
    assert not Filter(frozenset({Traffic.CLOCK})).stops(0xFA)
