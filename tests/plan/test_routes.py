"""Ways for cables around the units."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thruline.plan import routes
from thruline.plan.routes import (
    Board,
    Box,
    Leaves,
    Point,
    length_of,
    mouth_of,
    turning,
)

UNIT = Box(x=100, y=100, width=60, depth=120)
BOXES = st.lists(
    st.builds(
        Box,
        x=st.integers(0, 400),
        y=st.integers(0, 400),
        width=st.integers(20, 150),
        depth=st.integers(20, 150),
        turn=st.sampled_from([0, 0, 90, 30, 270]),
    ),
    max_size=5,
)
SPOTS = st.builds(Point, st.integers(-50, 600), st.integers(-50, 600))


def inside(box: Box, point: Point, edge: float) -> bool:
    """Whether a point is well inside a unit, worked out apart from the code under test."""
    angle = math.radians(box.turn)
    dx, dy = point.x - box.x, point.y - box.y
    across = dx * math.cos(angle) + dy * math.sin(angle)
    back = -dx * math.sin(angle) + dy * math.cos(angle)
    return edge < across < box.width - edge and edge < back < box.depth - edge


@settings(max_examples=80, deadline=None)
@given(BOXES, SPOTS, SPOTS)
def test_a_way_passes_through_no_unit_and_is_no_shorter_than_straight(boxes, start, stop):
    board = Board(tuple(boxes))
    way = board.way(start, stop)
    if way is None:
        return
    assert (way[0], way[-1]) == (start, stop)
    assert length_of(way) >= start.distance(stop) - 1e-6
    for one, other in pairwise(way):
        for step in range(41):
            between = Point(
                one.x + (other.x - one.x) * step / 40, one.y + (other.y - one.y) * step / 40
            )
            assert not any(inside(box, between, 0.5) for box in boxes)
    if all(not board.covers(Point(x, 300)) for x in (start.x, stop.x)) and not boxes:
        assert way == [start, stop]


@settings(max_examples=40, deadline=None)
@given(BOXES, SPOTS, SPOTS)
def test_there_and_back_is_as_long(boxes, start, stop):
    board = Board(tuple(boxes))
    there, back = board.way(start, stop), board.way(stop, start)
    assert (there is None) == (back is None)
    if there and back:
        assert length_of(there) == pytest.approx(length_of(back))


def test_a_unit_in_the_way_is_gone_round():
    way = Board((UNIT,)).way(Point(90, 160), Point(170, 160))
    assert way is not None
    assert len(way) == 4
    assert length_of(way) > 80


def test_no_way_begins_under_a_unit():
    assert Board((UNIT,)).way(Point(130, 160), Point(300, 300)) is None


@pytest.mark.parametrize(
    ("side", "along", "at", "away"),
    [
        ("back", 20, (120, 100), (0, -1)),
        ("front", 20, (120, 220), (0, 1)),
        ("left", 30, (100, 130), (-1, 0)),
        ("right", 30, (160, 130), (1, 0)),
        ("top", 20, (120, 100), (0, -1)),
    ],
)
def test_where_a_socket_is(side, along, at, away):
    mouth = mouth_of(UNIT, side, along)
    assert (mouth.at.x, mouth.at.y) == pytest.approx(at)
    assert (mouth.away.x, mouth.away.y) == pytest.approx(away)


def test_a_turned_unit_turns_its_sockets():
    turned = Box(x=100, y=100, width=60, depth=120, turn=90)
    mouth = mouth_of(turned, "back", 20)
    assert (mouth.at.x, mouth.at.y) == pytest.approx((100, 120))
    assert (mouth.away.x, mouth.away.y) == pytest.approx((1, 0))


def test_left_and_right_are_those_of_who_looks_at_the_socket():
    front = mouth_of(UNIT, "front", 20)  # looked at from the player's side, facing the back
    assert front.sideways(Leaves.LEFT).x == pytest.approx(-1)
    assert front.sideways(Leaves.RIGHT).x == pytest.approx(1)
    assert front.sideways(Leaves.STRAIGHT) == front.away


def test_room_in_front_of_a_socket():
    other = Box(x=100, y=40, width=60, depth=40)
    mouth = mouth_of(UNIT, "back", 20)
    assert Board((UNIT, other)).room(mouth, 100) == pytest.approx(20, abs=0.1)
    assert Board((UNIT,)).room(mouth, 100) == 100


def test_turning():
    corner = [Point(0, 0), Point(10, 0), Point(10, 10)]
    assert turning(corner) == pytest.approx(math.pi / 2)
    assert turning(corner[:2]) == 0


@settings(max_examples=200)
@given(
    st.builds(
        Box,
        x=st.integers(0, 40),
        y=st.integers(0, 40),
        width=st.integers(5, 50),
        depth=st.integers(5, 50),
        turn=st.sampled_from([0, 90, 180, 270, 33]),
    ),
    st.builds(Point, st.integers(-20, 110), st.integers(-20, 110)),
)
def test_a_unit_stands_on_the_points_where_a_leg_of_no_length_enters_it(box, point):
    assert routes._is_inside(point, box) == (routes._entry(point, point, box) is not None)
