"""Units seen from above: who stands on whom, and what stands over the edge."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.opening import open_text
from thruline.proof.example_boards import a_unit, board
from thruline.rig.footprints import TOUCHES, Point, beyond_mm, corners_of, overlap_mm
from thruline.rig.whole import Rig

small = st.integers(-300, 300)
turns = st.integers(0, 359)


def _rig(*places: str) -> Rig:
    units = [
        a_unit(f"delay-{number}", "bramley-delay", f"channel = {number + 1}", f"place = {place}")
        for number, place in enumerate(places)
    ]
    return open_text(board(*units).rig).rig


def _corners(x: int, y: int, turn: int) -> tuple[Point, ...]:
    rig = _rig(f"{{ x = {x}, y = {y}, turn = {turn} }}")
    found = corners_of(rig.units["delay-0"])
    assert found is not None
    return found


def test_a_unit_without_a_place_covers_nothing() -> None:
    assert corners_of(_rig("{ x = 1, y = 2 }").units["feet"]) is None


def test_turned_by_a_quarter_it_goes_left_of_its_corner() -> None:
    size = _rig("{ x = 0, y = 0 }").units["delay-0"].chart.size
    assert size is not None
    xs, ys = zip(*_corners(500, 100, 90), strict=True)
    assert (min(xs), max(xs)) == pytest.approx((500 - size.depth, 500))
    assert (min(ys), max(ys)) == pytest.approx((100, 100 + size.width))


@given(x=small, y=small, turn=turns)
def test_a_unit_stands_on_itself_and_on_nothing_far_away(x: int, y: int, turn: int) -> None:
    here = _corners(x, y, turn)
    assert overlap_mm(here, here) > 50
    assert overlap_mm(here, _corners(x + 1000, y, turn)) == 0


@given(x=small, y=small, first=turns, second=turns)
def test_it_does_not_matter_which_is_asked_first(x: int, y: int, first: int, second: int) -> None:
    here, there = _corners(0, 0, first), _corners(x, y, second)
    assert overlap_mm(here, there) == pytest.approx(overlap_mm(there, here))


@given(x=small, y=small, first=turns, second=turns)
def test_units_that_share_a_point_well_inside_overlap(
    x: int, y: int, first: int, second: int
) -> None:
    here, there = _corners(0, 0, first), _corners(x, y, second)
    middle = (sum(px for px, _ in there) / 4, sum(py for _, py in there) / 4)
    if _is_inside(middle, here):
        assert overlap_mm(here, there) > 0


def _is_inside(point: Point, corners: tuple[Point, ...]) -> bool:
    x, y = point
    sides = zip(corners, (*corners[1:], corners[0]), strict=True)
    return all((bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0 for (ax, ay), (bx, by) in sides)


def test_units_side_by_side_touch_and_no_more() -> None:
    size = _rig("{ x = 0, y = 0 }").units["delay-0"].chart.size
    assert size is not None
    assert overlap_mm(_corners(0, 0, 0), _corners(size.width, 0, 0)) == 0
    assert overlap_mm(_corners(0, 0, 0), _corners(size.width - 3, 0, 0)) == pytest.approx(3)


@given(x=small, y=small, turn=turns)
def test_moved_by_what_is_told_it_is_on_the_board(x: int, y: int, turn: int) -> None:
    corners = _corners(x, y, turn)
    right, down = beyond_mm(corners, 600, 400)
    moved = [(px + right, py + down) for px, py in corners]
    assert min(px for px, _ in moved) >= -TOUCHES
    assert max(px for px, _ in moved) <= 600 + TOUCHES
    assert min(py for _, py in moved) >= -TOUCHES
    assert max(py for _, py in moved) <= 400 + TOUCHES
    assert beyond_mm(moved, 600, 400) == (0, 0)
