import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.papers.pictures import picture
from thruline.papers.timing_layout import MARGIN, MOST_TICKS, layout_of, step_us


@given(st.integers(1, 10**9))
def test_the_scale_is_neither_crowded_nor_empty(span):
    step = step_us(span)
    assert span // step <= MOST_TICKS
    assert step >= 1000


@pytest.mark.parametrize("units", [1, 3, 12, 24])
@pytest.mark.parametrize("width", [640, 1120])
def test_everything_lies_inside(units, width):
    found = picture(units)
    layout = layout_of(found, width=width, legend_rows=3)
    assert layout.zero < layout.x(found.span_us) <= layout.end < width - MARGIN
    assert layout.names + layout.names_width < layout.zero
    assert layout.y(len(found.rows) - 1) < layout.bottom < layout.height
    assert layout.lane(layout.lanes - 1) < layout.names


def test_more_units_stand_closer():
    few, many = (layout_of(picture(count), width=1120, legend_rows=1) for count in (4, 24))
    assert many.pitch < few.pitch


def test_time_runs_to_the_right_in_proportion():
    layout = layout_of(picture(2), width=1000, legend_rows=1)
    assert layout.x(0) == layout.zero
    assert layout.x(layout.span_us) == layout.end
    middle = layout.x(layout.span_us // 2)
    assert middle == pytest.approx((layout.zero + layout.end) / 2)


def test_squares_take_a_lane_of_their_own():
    plain = layout_of(picture(2), width=1000, legend_rows=1)
    assert plain.lanes == 1
    assert layout_of(picture(4, lines=2), width=1000, legend_rows=1).lanes == 2
