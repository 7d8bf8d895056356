from hypothesis import given
from hypothesis import strategies as st

from thruline.cli.paper_text import column_widths, folded, paper_rows, table_rows
from thruline.papers.paper import Paper, Section, Table

CELL = st.text(st.sampled_from("abc ,-"), max_size=60)


def test_a_paper():
    table = Table(("Loop", "Send"), (("loop-1", "send-1"),))
    section = Section(title="Relay loops", says=("Two.",), table=table, notes=("Small print.",))
    paper = Paper(title="Braeburn Six", about=("A controller.",), sections=(section,))
    assert list(paper_rows(paper)) == [
        "Braeburn Six",
        "A controller.",
        "",
        "Relay loops",
        "Two.",
        "Loop    Send",
        "------  ------",
        "loop-1  send-1",
        "Small print.",
    ]


def test_what_stands_between_commas_stays_together():
    assert folded("0 = 40 ms, 64 = 473 ms, 127 = 900 ms", 16) == [
        "0 = 40 ms,",
        "64 = 473 ms,",
        "127 = 900 ms",
    ]
    assert folded("short", 16) == ["short"]


@given(st.lists(st.tuples(CELL, CELL, CELL), min_size=1, max_size=5), st.integers(30, 120))
def test_a_table_fits_into_its_width(rows, width):
    table = Table(("One", "Two", "Three"), tuple(rows))
    assert all(len(row) <= width for row in table_rows(table, width))
    assert "\xa0" not in "".join(table_rows(table, width))


@given(st.lists(st.tuples(CELL, CELL), min_size=1, max_size=5))
def test_no_letter_is_lost(rows):
    table = Table(("One", "Two"), tuple(rows))
    shown = "".join(table_rows(table, 30)).replace("-", "")
    wanted = "OneTwo" + "".join(cell for row in rows for cell in row).replace("-", "")
    assert sorted(shown.replace(" ", "")) == sorted(wanted.replace(" ", ""))


@given(st.lists(st.integers(0, 80), min_size=1, max_size=6), st.integers(0, 200))
def test_columns_are_never_wider_than_wanted(wide, width):
    widths = column_widths([["x" * one for one in wide]], width)
    assert all(got <= want for got, want in zip(widths, wide, strict=True))
    assert all(got >= min(want, 6) for got, want in zip(widths, wide, strict=True))
