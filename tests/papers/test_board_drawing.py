"""The board as a drawing to scale."""

import re
from xml.etree import ElementTree as ET

import pytest

from tests.monsters import monster
from tests.opening import open_text
from thruline.outside.samples import ORCHARD_STREET, sample_text
from thruline.papers.board_drawing import POINTS_A_MM, board_drawings, numbered, units_section
from thruline.plan.cables import Wish, plan_cables

GOOD = open_text(sample_text(ORCHARD_STREET)).rig
DRAWN = tuple(board_drawings(GOOD, plan_cables(GOOD, Wish())))


def texts(drawing):
    return [one.text for one in ET.fromstring(drawing.svg).iter() if one.tag.endswith("text")]  # noqa: S314 - our own


def test_first_the_units_then_each_kind_of_cable():
    assert DRAWN[0].title.startswith("The board from above")
    kinds = [one.title.split(" ")[0] for one in DRAWN[1:]]
    assert kinds == ["MIDI", "Audio", "Power"]


def test_a_ruler_laid_on_it_tells_the_scale():
    ratio = float(re.search(r"1 to ([\d.]+)", DRAWN[0].title)[1])
    bar = re.search(r"h([\d.]+)v-3", DRAWN[0].svg)[1]
    assert float(bar) / POINTS_A_MM * ratio == pytest.approx(100, abs=0.5)
    board = re.search(r'<rect x="[\d.-]+" y="[\d.-]+" width="([\d.]+)"', DRAWN[0].svg)[1]
    assert float(board) / POINTS_A_MM * ratio == pytest.approx(GOOD.board.width, abs=1)


def test_every_unit_that_has_a_place_has_its_number():
    placed = [one.id for one in GOOD.units.values() if one.place and one.chart.size]
    shown = texts(DRAWN[0])
    assert {str(numbered(GOOD)[one]) for one in placed} <= set(shown)
    for unit in GOOD.units.values():
        assert (unit.id in placed) != (unit.name in DRAWN[0].says)


def test_numbers_of_cables_do_not_cover_one_another():
    for drawing in DRAWN[1:]:
        boxes = [
            tuple(float(one.get(key)) for key in ("x", "y", "width", "height"))
            for one in ET.fromstring(drawing.svg).iter()  # noqa: S314 - our own
            if one.tag.endswith("rect") and one.get("stroke-width") == "0.4"
        ]
        assert boxes
        for place, (x, y, wide, high) in enumerate(boxes):
            for x2, y2, wide2, high2 in boxes[place + 1 :]:
                assert x + wide <= x2 or x2 + wide2 <= x or y + high <= y2 or y2 + high2 <= y


def test_names_that_do_not_fit_are_left_to_the_table():
    rig = open_text(monster(presets=2, songs=1)).rig
    (units, *_) = board_drawings(rig, ())
    assert not any(word.startswith("WW") for word in texts(units))
    rows = units_section(rig).table.rows
    assert [row[1] for row in rows] == [unit.name for unit in rig.units.values()]


def test_nothing_is_drawn_where_nothing_stands():
    rig = open_text('[[unit]]\nid = "feet"\nchart = "braeburn-six"\n').rig
    assert tuple(board_drawings(rig, ())) == ()
    assert units_section(rig).table.rows[0][4] == "no place"
