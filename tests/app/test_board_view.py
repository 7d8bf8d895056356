import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.app.keeping import BOARD
from tests.opening import open_text
from thruline.app.board_view import Point, board_json, corners, overlap, troubles, turned
from thruline.app.mend import state_of
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.rig.chart import Footprint
from thruline.rig.unit import Place

numbers = st.integers(-500, 500)
boxes = st.tuples(numbers, numbers, st.integers(10, 300), st.integers(10, 300), st.integers(0, 359))


def shape(x, y, width, depth, turn):
    place = Place(x, y, turn)
    own = ((0, 0), (width, 0), (width, depth), (0, depth))
    return [turned(place, Point(*one)) for one in own]


def test_the_demonstration_is_drawn_with_every_cable_and_nothing_overlaps():
    state = state_of(open_text(sample_text(ORCHARD_STREET)))
    told = board_json(state)
    assert len(told["units"]) == len(state.opened.rig.units)
    assert len(told["cables"]) == len(state.opened.rig.cables)
    assert told["troubles"] == []
    assert {one["layer"] for one in told["cables"]} >= {"midi", "power"}
    assert "delay" in told["audio"]


def test_a_quarter_turn_is_clockwise_about_the_left_back_corner():
    point = turned(Place(100, 50, 90), Point(10, 0))
    assert (round(point.x, 6), round(point.y, 6)) == (100, 60)


@given(boxes, boxes)
def test_overlapping_is_mutual_and_a_thing_overlaps_itself(one, other):
    first, second = shape(*one), shape(*other)
    assert overlap(first, second) == overlap(second, first)
    assert overlap(first, first)


@given(boxes, st.integers(0, 200))
def test_what_stands_side_by_side_does_not_overlap(one, gap):
    x, y, width, depth, _ = one
    assert not overlap(shape(x, y, width, depth, 0), shape(x + width + gap, y, width, depth, 0))
    if gap:
        assert overlap(shape(x, y, width, depth, 0), shape(x + width - 5, y, width, depth, 0))


@pytest.fixture
def units():
    text = BOARD.replace("channel = 3", "channel = 3\nplace = { x = 0, y = 0 }")
    text = text.replace(
        'chart = "braeburn-six"', 'chart = "braeburn-six"\nplace = { x = 10, y = 10 }'
    )
    return tuple(open_text(text).rig.units.values())


def test_what_stands_in_another_or_over_the_edge_is_told(units):
    told = [one["says"] for one in troubles(units, Footprint(200, 150, 0))]
    assert any("over the edge" in one for one in told)
    assert any("stand in each other" in one for one in told)


def test_a_unit_without_a_place_has_no_corners():
    unit = open_text(BOARD).rig.units["delay"]
    assert corners(unit) == ()
    assert board_json(state_of(open_text(BOARD)))["board"]["known"] is False
