from itertools import islice

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.bench.beat import clocks, measure

tempos = st.floats(30, 300)


def row(bpm, count=97):
    return [one.at_us for one in islice(clocks(bpm), count)]


@given(tempos)
def test_a_clock_that_is_made_is_measured_as_it_was_meant(bpm):
    found = measure(row(bpm))
    assert found.bpm == pytest.approx(bpm, rel=1e-4)
    assert found.lowest == pytest.approx(found.highest, rel=1e-4)
    assert found.jitter_us <= 1
    assert not found.doubled


@given(tempos, st.floats(0.05, 0.35))
def test_two_clocks_on_a_line_are_told(bpm, share):
    one = row(bpm)
    other = [at + round(share * 2_500_000 / bpm) for at in one]
    found = measure(sorted((*one, *other)))
    assert found.doubled
    assert found.bpm == pytest.approx(2 * bpm, rel=0.02)
    assert "two sources" in found.says


def test_jitter():
    at = row(120)
    late = [moment + (1000 if place % 3 == 0 else 0) for place, moment in enumerate(at)]
    found = measure(late)
    assert 300 < found.jitter_us < 600
    assert found.highest - found.lowest < 1, "over a beat a millisecond is a quarter of a bpm"


@pytest.mark.parametrize("times", [[], [0], row(120, 24), [5] * 60])
def test_less_than_a_beat_is_no_tempo(times):
    assert measure(times) is None


def test_a_stop_is_not_a_slow_clock():
    first, later = row(100), [at + 10_000_000 for at in row(140, 200)]
    assert measure([*first, *later]).bpm == pytest.approx(140, rel=1e-3)
