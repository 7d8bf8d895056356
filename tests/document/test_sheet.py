import tomllib

import pytest

from thruline.document.places import BOM, Kind, places
from thruline.document.sheet import (
    block_end,
    block_start,
    indent_at,
    past_blank_rows,
    put_rows,
    row_end,
    row_ends_of,
    row_start,
    sheet,
    without_block,
)

TEXT = """\
# head
a = 1

# of b
  # too
[b]
c.d = '''
# no comment
'''
# below

# of e
[[e]]
# also of f
[f]
"""


def made(text=TEXT):
    return sheet(places(text), tomllib.loads(text.removeprefix(BOM)), row_ends=row_ends_of(text))


def test_statements_in_the_order_of_the_text():
    one = made()
    assert [known.trail for known in one.statements] == [
        ("a",),
        ("b",),
        ("b", "c", "d"),
        ("e", 0),
        ("f",),
    ]
    assert [known.is_header for known in one.statements] == [False, True, False, True, True]
    assert one.under(("b",)) == [1, 2]
    assert [one.base_of(at) for at in range(3)] == [(), ("b",), ("b",)]


@pytest.mark.parametrize(
    ("at", "first", "last"),
    [
        (0, "a = 1", "a = 1"),
        (1, "# of b", "[b]"),
        (2, "c.d = '''", "# below"),
        (3, "# of e", "[[e]]"),
        (4, "# also of f", "[f]"),
    ],
)
def test_the_rows_of_a_statement_with_its_comments(at, first, last):
    one = made()
    rows = TEXT[block_start(one, at) : block_end(one, at)].splitlines()
    assert (rows[0], rows[-1]) == (first, last)


def test_lone_keys():
    one = made("a.b = 1\nc.d = 1\nc.e = 2\n[f.g]\n[h]\ni = 1\nj = { k.l = 1, m = 2 }\n")
    lone = [trail for trail in one.where.of if one.is_lone(trail)]
    assert lone == [("a", "b"), ("f", "g"), ("h", "j", "k", "l")]
    assert one.kind(()) is Kind.IMPLIED


def test_rows():
    text = f"{BOM}a\r\nbc\n  d"
    assert [row_start(text, offset) for offset in (1, 4, 5, 9)] == [1, 4, 4, 7]
    assert [row_end(text, offset) for offset in (0, 4, 8)] == [4, 7, 10]
    assert indent_at(text, 9) == "  "
    assert indent_at(text, 5) is None
    assert past_blank_rows("\n \r\n\tx", 0) == 4


@pytest.mark.parametrize(
    ("text", "changed"),
    [
        ("", "x = 1\n"),
        (BOM, f"{BOM}x = 1\n"),
        ("a = 1", "a = 1\nx = 1\n"),
        ("a = 1\r\nb = 2", "a = 1\r\nb = 2\r\nx = 1\r\n"),
    ],
)
def test_rows_at_the_end_of_a_text(text, changed):
    assert put_rows(made(text), len(text), "x = 1\n") == changed


@pytest.mark.parametrize(
    ("text", "rest"),
    [
        ("a\n\nX\n\nb\n", "a\n\nb\n"),
        ("a\nX\n\nb\n", "a\n\nb\n"),
        ("X\n\nb\n", "b\n"),
        ("a\n\n\nX\n", "a\n"),
        ("X\n", ""),
    ],
)
def test_one_gap_is_left_where_there_were_two(text, rest):
    start = text.index("X")
    assert without_block(text, start, start + 2) == rest
