from hypothesis import given
from hypothesis import strategies as st

from thruline.base.errors import EXIT_CANNOT_USE
from thruline.base.spot import Spot
from thruline.document.places import BOM, Places, row_starts
from thruline.document.problems import (
    BadDocument,
    Excerpt,
    Problem,
    brief,
    cut,
    excerpt,
    shown_problem,
    shown_text,
)


def scene(text):
    return Places(text, {}, row_starts(text))


def test_a_problem_as_people_read_it():
    problem = Problem(
        spot=Spot("board.rig.toml", 6, 11, 2),
        says="17 is too high: the most is 16",
        allowed="a MIDI channel",
        example="[[unit]]\nchannel = 3",
        excerpt=Excerpt(row="channel = 17", start=10, length=2),
    )
    assert shown_problem(problem) == (
        "board.rig.toml:6:11: 17 is too high: the most is 16\n"
        "     6 | channel = 17\n"
        "       |           ^^\n"
        "       = here belongs: a MIDI channel\n"
        "       = for example: [[unit]]\n"
        "                      channel = 3"
    )


def test_a_bad_document_says_all_its_problems():
    problems = [Problem(spot=Spot("f", row, 1), says="no") for row in (1, 2)]
    bad = BadDocument(problems, more=3)
    assert bad.says == "f:1:1: no\nf:2:1: no\nand 3 more"
    assert bad.exit_code == EXIT_CANNOT_USE


def test_tabs_stay_under_tabs():
    problem = Problem(spot=Spot("f", 1, 3), says="no", excerpt=cut("\ta\tb = 1", 3, 1))
    assert shown_problem(problem).split("\n")[-1] == "       | \t \t^"


def test_what_would_steer_a_terminal_is_not_shown():
    assert shown_text("a\x1b[31mb\u202e\ud800é\t") == "a\ufffd[31mb\ufffd\ufffdé\t"


@given(st.integers(0, 400), st.integers(0, 400), st.integers(0, 500))
def test_a_cut_row_still_shows_what_is_meant(before, length, after):
    part = cut("a" * before + "#" * length + "b" * after, before, length)
    assert len(part.row) <= 102
    marked = part.row[part.start : part.start + part.length]
    assert set(marked.removesuffix("…")) <= ({"#"} if length else {"b", ""})


def test_the_row_of_a_spot():
    where = scene(f"{BOM}a = 1\r\nbb = 2\r\n")
    assert excerpt(where, Spot("f", 1, 5, 1)) == Excerpt(row="a = 1", start=4, length=1)
    assert excerpt(where, Spot("f", 2, 1, 2)) == Excerpt(row="bb = 2", start=0, length=2)


def test_brief():
    assert brief("a  b") == "a  b"
    assert brief("[\n  1,\n]") == "[ 1, ]"
    assert len(brief("x" * 99)) == 40
