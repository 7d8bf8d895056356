import re
from dataclasses import replace

from tests.papers.pictures import picture
from thruline.papers.colours import LIGHT
from thruline.papers.timing_layout import layout_of
from thruline.papers.timing_marks import bars, crosses, falls, labels, numbers, rights
from thruline.papers.timing_pen import Pen


def pen_for(**board):
    found = picture(**board)
    return Pen(found, layout_of(found, width=1000, legend_rows=2), LIGHT)


def test_a_bar_for_every_loading_and_its_label():
    pen = pen_for(units=3)
    assert len([*bars(pen)]) == len([*labels(pen)]) == 3
    assert all("deaf to control changes" in one for one in labels(pen))


def test_falls_end_in_dots_of_their_colour():
    pen = pen_for(units=2)
    drawn = [*falls(pen)]
    assert sum(one.startswith("<polyline") for one in drawn) == len(pen.picture.falls)
    assert sum(one.startswith("<circle") for one in drawn) == len(pen.picture.falls)


def test_neighbours_are_dashed():
    pen = pen_for(units=17, controls=0)
    dashed = [one for one in falls(pen) if "stroke-dasharray" in one]
    assert len(dashed) == len(pen.picture.strays) == 2


def test_crosses_that_stand_close_share_a_word():
    pen = pen_for(units=1, controls=3, pause_ms=0)
    drawn = "".join(crosses(pen))
    assert drawn.count("<path") == 3
    assert "3 × lost" in drawn


def test_why_nothing_arrives_is_said_once_and_the_rest_is_quiet():
    drawn = "".join(crosses(pen_for(units=4, way="own", controls=0)))
    assert drawn.count("✕ nothing arrives: Braeburn MIDI OUT passes nothing on</text>") == 1
    assert drawn.count(">nothing arrives</text>") == 2


def test_when_each_unit_is_right():
    pen = pen_for(units=2)
    drawn = "".join(rights(pen))
    assert "ms</text>" in drawn
    assert drawn.count("<line") == 2


def test_the_time_stands_left_where_all_is_right_close_to_the_right():
    for apart, anchored in ((0, 0), (300, 1), (9000, 0)):
        pen = pen_for(units=1)
        late = pen.picture.right_us + apart
        pen = Pen(replace(pen.picture, right_us=late), pen.layout, LIGHT)
        assert "".join(rights(pen)).count('text-anchor="end"') == anchored, apart


def test_a_time_left_of_its_tick_stands_below_a_bar_that_ends_there():
    pen = pen_for(units=1, controls=0)
    (time,) = [one for one in rights(pen) if one.startswith("<text")]
    near = Pen(replace(pen.picture, right_us=pen.picture.right_us + 300), pen.layout, LIGHT)
    (lower,) = [one for one in rights(near) if one.startswith("<text")]
    assert height(lower) - height(time) == 13


def height(drawn):
    return float(re.search(r' y="([0-9.]+)"', drawn)[1])


def test_numbers_where_messages_leave_and_none_over_another():
    assert len([*numbers(pen_for(units=3))]) == 6
    crowded = pen_for(units=16, controls=5, pause_ms=2000)
    assert 0 < len([*numbers(crowded)]) < len(crowded.picture.messages)
