import re
from itertools import pairwise

import pytest

from tests.papers.markup import read
from tests.papers.pictures import picture
from thruline.papers.colours import DARK, LIGHT, THEMED
from thruline.papers.text_width import text_width
from thruline.papers.timing_svg import WIDTH, timing_svg
from thruline.timing.picture import Least

SVG = "{http://www.w3.org/2000/svg}"
BOARDS = {
    "three units": {"units": 3},
    "twelve units": {"units": 12},
    "twenty-four units": {"units": 24},
    "sixty messages": {"units": 12, "controls": 4},
    "five messages": {"units": 5, "controls": 0},
    "long names": {"units": 5, "name": "{} with a name that is very, very long indeed, no. 2"},
    "a cut": {"units": 5, "way": "own"},
    "two lines": {"units": 8, "lines": 2},
    "messages lost": {"units": 3, "controls": 3, "pause_ms": 0},
    "an odd title": {"title": 'press 1 "<b>&amp;\x07"'},
}


def drawn(**board):
    return read(timing_svg(picture(**board)))


def texts(root):
    return [(one, "".join(one.itertext())) for one in root.iter(f"{SVG}text")]


def span(one, says):
    """From where to where a text goes."""
    size, x = float(one.get("font-size")), float(one.get("x"))
    width = text_width(says, size, bold=one.get("font-weight") == "700")
    left = {"middle": x - width / 2, "end": x - width}.get(one.get("text-anchor"), x)
    return left, left + width


@pytest.mark.parametrize("board", BOARDS.values(), ids=BOARDS)
def test_no_text_is_cut_off(board):
    root = drawn(**board)
    height = float(root.get("height"))
    for one, says in texts(root):
        left, right = span(one, says)
        assert left >= 0
        assert right <= WIDTH
        assert 0 < float(one.get("y")) < height


@pytest.mark.parametrize("board", BOARDS.values(), ids=BOARDS)
def test_names_numbers_and_labels_do_not_overlap(board):
    rows = {}
    for one, says in texts(drawn(**board)):
        rows.setdefault(float(one.get("y")), []).append(span(one, says))
    for spans in rows.values():
        spans.sort()
        for (_, right), (left, _) in pairwise(spans):
            assert left >= right - 0.5


@pytest.mark.parametrize("board", BOARDS.values(), ids=BOARDS)
def test_every_message_falls_and_every_unit_has_a_station(board):
    found = picture(**board)
    root = read(timing_svg(found))
    assert len([*root.iter(f"{SVG}polyline")]) == len(found.falls)
    rings = [one for one in root.iter(f"{SVG}circle") if one.get("r") == "9.5"]
    assert len(rings) == len(found.rows)


def test_it_is_told_to_those_who_cannot_see_it():
    root = drawn(units=3)
    assert root.get("role") == "img"
    named = {one.get("id"): one.text for one in root if one.get("id")}
    assert named.keys() == {"timing-title", "timing-desc"}
    assert root.get("aria-labelledby") == "timing-title timing-desc"
    assert "obeyed" in named["timing-desc"]


def test_long_names_are_there_in_full():
    long = "Braeburn with a name that is very, very long indeed, no. 2"
    root = drawn(units=2, name="{} with a name that is very, very long indeed, no. 2")
    assert long in [one.text for one in root.iter(f"{SVG}title")]
    assert not any(says == long for _, says in texts(root))


def test_the_line_in_green_says_that_nothing_is_faster():
    found = picture(2, least=Least(10, proved=True))
    svg = timing_svg(found)
    assert "cannot be faster" in svg
    assert f'stroke="{LIGHT.proved}"' in svg


def test_colours_of_the_ground():
    found = picture(2)
    assert LIGHT.ground in timing_svg(found)
    assert DARK.ground in timing_svg(found, dark=True)
    themed = timing_svg(found, palette=THEMED)
    assert not re.search(r"#[0-9A-F]{6}", themed)


def test_several_can_stand_in_one_page():
    one, other = (timing_svg(picture(2), name=name) for name in ("first", "second"))
    ids = [set(re.findall(r' id="([^"]+)"', svg)) for svg in (one, other)]
    assert ids[0].isdisjoint(ids[1])


def test_it_needs_nothing_from_outside():
    svg = timing_svg(picture(4))
    assert "href" not in svg
    assert "<script" not in svg
    assert re.findall(r"https?://[^\"]+", svg) == ["http://www.w3.org/2000/svg"]
