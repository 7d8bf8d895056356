import pytest

from tests.papers.pictures import picture
from thruline.cli.timing_text import key_rows, sum_style, timing_rows
from thruline.timing.picture import Least

BOARDS = {
    "three units": {"units": 3},
    "twelve units": {"units": 12},
    "twenty-four units": {"units": 24},
    "sixty messages": {"units": 12, "controls": 4},
    "long names": {"units": 5, "name": "{} with a name that is very, very long indeed"},
    "a cut": {"units": 5, "way": "own"},
    "two lines": {"units": 8, "lines": 2},
    "messages lost": {"units": 3, "controls": 3, "pause_ms": 0},
}


@pytest.mark.parametrize("width", [80, 100, 120])
@pytest.mark.parametrize("board", BOARDS.values(), ids=BOARDS)
def test_every_row_fits_the_terminal(board, width):
    assert max(len(row) for row in timing_rows(picture(**board), width=width)) <= width


@pytest.mark.parametrize("board", BOARDS.values(), ids=BOARDS)
def test_ascii_is_ascii_but_for_names(board):
    rows = timing_rows(picture(**board), ascii_only=True)
    assert all(row.isascii() for row in rows)


def test_each_unit_has_a_row_with_its_time():
    rows = timing_rows(picture(2), width=80)
    (row,) = (row for row in rows if "Egremont" in row)
    assert row.endswith("29.2 ms")


def test_many_units_have_one_row_each():
    assert len(timing_rows(picture(24))) == 2 + 25
    assert len(timing_rows(picture(3))) == 2 + 2 * 4


def test_branches_turn_off_the_line():
    rows = timing_rows(picture(4, lines=2))
    assert sum(row.startswith("├─○") for row in rows) == 1
    assert sum(row.startswith("│ ○") for row in rows) == 1


def test_a_cut_says_why():
    text = "\n".join(timing_rows(picture(4, way="own", controls=0)))
    assert "✕ nothing arrives" in text
    assert "passes nothing on" in text
    assert "◌" in text


def test_ends_and_bars():
    text = "\n".join(timing_rows(picture(2, pause_ms=0, controls=3)))
    for sign in "●✕▒┃":
        assert sign in text
    assert "lost" in text


def test_styles_are_asked_for_by_name():
    names = set()

    def note(text, name):
        names.add(name)
        return text

    timing_rows(picture(6, loop="in"), style=note)
    assert {"line-0", "line-4", "good", "quiet", "strong"} <= names


def test_the_sum_has_the_colour_of_what_it_says():
    assert sum_style(picture(1, least=Least(1, proved=True))) == "good"
    assert sum_style(picture(1, pause_ms=0)) == "fault"


def test_the_key_names_what_is_used():
    (good,) = key_rows(picture(1))
    assert "not obeyed" not in good
    assert "deaf" in good
    (bad,) = key_rows(picture(1, pause_ms=0))
    assert "✕ not obeyed" in bad
