"""Papers for spreadsheets."""

import csv
import io

from hypothesis import given
from hypothesis import strategies as st

from thruline.papers.as_csv import paper_csv
from thruline.papers.paper import Paper, Section, Table

CELLS = st.text(st.characters(codec="utf-8", exclude_characters="\r\0"), max_size=8)
ROWS = st.lists(st.tuples(CELLS, CELLS), min_size=1, max_size=4)


@given(st.lists(st.tuples(CELLS, ROWS), max_size=3))
def test_every_cell_comes_back(parts):
    sections = tuple(
        Section(title=title, table=Table(("a", "b"), tuple(rows))) for title, rows in parts
    )
    text = paper_csv(Paper(title="Sheet", sections=sections))
    read = list(csv.reader(io.StringIO(text, newline="")))
    wanted = [[title, *row] for title, rows in parts for row in rows]
    assert read == ([["section", "a", "b"], *wanted] if wanted else [])


def test_a_head_that_changes_is_given_again():
    one = Section(title="One", table=Table(("a",), (("1",),)))
    two = Section(title="Two", table=Table(("b",), (("2",),)), notes=("small print",))
    bare = Section(title="Three", says=("words",))
    text = paper_csv(Paper(title="Sheet", sections=(one, two, bare)))
    assert text.split("\r\n") == ["section,a", "One,1", "section,b", "Two,2", ""]
