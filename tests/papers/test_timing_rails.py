from tests.papers.pictures import picture
from thruline.papers.colours import LIGHT
from thruline.papers.timing_layout import layout_of
from thruline.papers.timing_pen import Pen
from thruline.papers.timing_rails import rails, stations


def pen_for(**board):
    found = picture(**board)
    return Pen(found, layout_of(found, width=1000, legend_rows=2), LIGHT)


def test_every_unit_but_the_controller_has_a_rail():
    assert len([*rails(pen_for(units=5))]) == 5


def test_each_line_of_the_controller_has_a_colour():
    drawn = "".join(rails(pen_for(units=4, lines=2)))
    assert LIGHT.line(0) in drawn
    assert LIGHT.line(1) in drawn


def test_a_branch_turns_into_its_lane():
    first, *_ = rails(pen_for(units=4, lines=2))
    assert "C" in first.split('d="')[1].split('"')[0]


def test_a_cut_line_is_dashed_and_crossed_once():
    drawn = [*rails(pen_for(units=4, way="own"))]
    assert sum("stroke-dasharray" in one for one in drawn) == 3
    assert sum(LIGHT.fault in one for one in drawn) == 1


def test_names_stand_beside_their_stations():
    pen = pen_for(units=2)
    drawn = "".join(stations(pen))
    for row in pen.picture.rows:
        assert row.name in drawn
        assert row.about in drawn
