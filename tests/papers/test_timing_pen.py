import pytest

from tests.papers.pictures import picture
from thruline.papers.colours import LIGHT
from thruline.papers.timing_layout import layout_of
from thruline.papers.timing_pen import Pen
from thruline.timing.ending import Mark


@pytest.fixture
def pen():
    found = picture(3)
    return Pen(found, layout_of(found, width=1000, legend_rows=2), LIGHT)


def test_units_take_colours_in_use_order(pen):
    assert pen.colours == {row: LIGHT.line(row - 1) for row in (1, 2, 3)}
    assert pen.colour("u1") == LIGHT.line(1)
    assert pen.colour(None) == LIGHT.quiet


@pytest.mark.parametrize("mark", Mark)
def test_every_mark_has_a_shape_of_its_own(pen, mark):
    others = {pen.mark(0, 0, mark=one, colour="#000000") for one in Mark if one is not mark}
    assert pen.mark(0, 0, mark=mark, colour="#000000") not in others


def test_crossings_are_where_falls_pass(pen):
    between = (pen.layout.y(0) + pen.layout.y(1)) / 2
    assert len(pen.crossings(between)) == len(pen.picture.falls)
    assert pen.crossings(pen.layout.y(3) + 1) == []


def test_the_clearest_place_is_taken(pen):
    y = (pen.layout.y(0) + pen.layout.y(1)) / 2
    crowded, clear = min(pen.crossings(y)), pen.layout.x(15_000)
    assert pen.clearest(y, 20, places=[crowded - 5, clear]) == clear


def test_the_key_names_every_mark(pen):
    drawn = "".join(pen.key(0, 10))
    for says in ("obeyed", "not obeyed", "cannot be told", "deaf to control changes", "right from"):
        assert says in drawn
