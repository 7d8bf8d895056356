"""Columns of printed tables."""

from hypothesis import given
from hypothesis import strategies as st

from thruline.papers.book_columns import BREAK, INSET, breakable, column_points, height_of
from thruline.papers.text_width import text_width

TEXT = st.text(st.characters(codec="latin-1", exclude_categories=("Cc",)), max_size=90)
ROWS = st.lists(st.tuples(TEXT, TEXT, TEXT), min_size=1, max_size=6)


@given(ROWS, st.floats(200, 600))
def test_columns_never_leave_the_page(rows, width):
    found = column_points(rows, width, size=8.4, ticks="[ ]")
    assert sum(found) <= width + 0.01
    assert all(one > 0 for one in found)


@given(ROWS, st.floats(300, 600))
def test_every_part_between_breaks_fits_into_its_column(rows, width):
    widths = column_points(rows, width, size=8.4, ticks="[ ]")
    for row in rows:
        for cell, wide in zip(row, widths, strict=True):
            room = max(wide - 2 * INSET, 9)
            for word in breakable(cell, room, size=8.4).replace(BREAK, " ").split():
                assert len(word) == 1 or text_width(word, 8.4) <= room


@given(TEXT, st.floats(20, 300))
def test_places_to_break_change_no_letter(text, width):
    assert breakable(text, width, size=10).replace(BREAK, "") == text.replace(BREAK, "")


def test_what_fits_is_as_wide_as_it_wants_and_ticks_are_narrow():
    tick, short, long = column_points([("[ ]", "no", "Bramley Delay")], 400, size=8.4, ticks="[ ]")
    assert tick < short < long < 100


def test_long_sentences_get_what_is_left():
    sentence = "a sentence that goes on and on " * 6
    short, long = column_points([("short", sentence)], 300, size=8.4, ticks="[ ]")
    assert long > 5 * short
    low = height_of([("short", "x")], [short, long], size=8.4)
    assert height_of([("short", sentence)], [short, long], size=8.4) > 1.5 * low


def test_one_long_cell_among_short_ones_takes_no_room_from_a_column_that_is_full():
    rows = [("x", "words that fill this column " * 4)] * 20 + [("one long cell " * 40, "x")]
    first, second = column_points(rows, 400, size=8.4, ticks="[ ]")
    assert second > first


def test_what_fits_is_counted_as_one_line():
    rows = [("no", "Bramley Delay: bank 0 (coarse)")] * 10
    widths = column_points(rows, 400, size=8.4, ticks="[ ]")
    assert height_of(rows, widths, size=8.4) < 10 * (8.4 * 1.4 + 6) + 1
