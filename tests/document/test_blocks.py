import tomllib

import pytest

from thruline.document.blocks import (
    add_block,
    add_dotted,
    add_header,
    add_pair,
    append_entry,
    drop_rows,
    order_among,
    reorder_entries,
    stand_apart,
)
from thruline.document.places import places
from thruline.document.sheet import row_ends_of, sheet


def made(text):
    return sheet(places(text), tomllib.loads(text), row_ends=row_ends_of(text))


def test_a_pair_stands_in_as_far_as_the_one_above():
    text = "[a]\n    b = 1 # x\n\n[c]\n"
    assert add_pair(made(text), ("a",), "d", value=2) == "[a]\n    b = 1 # x\n    d = 2\n\n[c]\n"
    assert add_pair(made(text), ("c",), "d", value=2) == f"{text}d = 2\n"


def test_a_pair_of_the_right_entry():
    text = "[[a]]\n[[a]]\n[a.b]\n"
    assert add_pair(made(text), ("a", 0), "c", value=1) == "[[a]]\nc = 1\n[[a]]\n[a.b]\n"
    assert add_pair(made(text), ("a", 1), "c", value=1) == "[[a]]\n[[a]]\nc = 1\n[a.b]\n"


def test_dotted_and_implied_tables():
    text = "[a]\nb.c.d = 1\n\n[e.f]\n"
    assert "b.c.d = 1\nb.x = 2\n" in add_dotted(made(text), ("a", "b"), "x", value=2)
    assert "[e]\nx = 2\n\n[e.f]" in add_header(made(text), ("e",), "x", value=2)


def test_blocks_come_after_all_that_their_table_has():
    text = "[[a]]\n[a.b]\nc = 1\n[[a]]\n"
    changed = add_block(made(text), ("a", 0), "d", value={"e": 1})
    assert changed == "[[a]]\n[a.b]\nc = 1\n\n[a.d]\ne = 1\n\n[[a]]\n"
    changed = add_block(made(text), ("a", 1), "d", value=[{"e": 1}, {}])
    assert changed == f"{text}\n[[a.d]]\ne = 1\n\n[[a.d]]\n"


def test_entries_of_an_inner_list():
    text = "[[a]]\n[[a.b]]\nc = 1\n\n[[a]]\n"
    assert append_entry(made(text), ("a", 0, "b"), {"c": 2}) == (
        "[[a]]\n[[a.b]]\nc = 1\n\n[[a.b]]\nc = 2\n\n[[a]]\n"
    )


def test_dropping_rows_that_stand_apart():
    text = "[a.b]\nx = 1\n\n[c]\n\n[a.d]\ny = 1\n"
    assert drop_rows(made(text), ("a",)) == "[c]\n"
    assert drop_rows(made("[a.b]\nx = 1\n"), ("a", "b")) == "[a]\n"
    assert drop_rows(made("[t]\na.b = 1 # x\na.c = 2\n"), ("t", "a")) == "[t]\n"


NEIGHBOURS = """# The board.

# The first in line.
[[unit]]
id = "amp"  # loud

[unit.power]
volts = 9
# It hums.

# What stands between stays.

[rig]
name = "x"

# Once more.
[[unit]]
id = "delay"
[[unit]]
id = "echo"
"""


def test_entries_change_places_with_their_rows_and_comments():
    one = made(NEIGHBOURS)
    moved = reorder_entries(one, ("unit",), [1, 2, 0])
    assert (
        moved
        == """# The board.

# Once more.
[[unit]]
id = "delay"

# What stands between stays.

[rig]
name = "x"

[[unit]]
id = "echo"
# The first in line.
[[unit]]
id = "amp"  # loud

[unit.power]
volts = 9
# It hums.
"""
    )
    assert reorder_entries(made(moved), ("unit",), [2, 0, 1]) == NEIGHBOURS


def test_the_last_entry_gets_an_end_of_its_row_when_it_moves():
    text = "[[a]]\nb = 1\n\n[[a]]\nb = 2"
    assert reorder_entries(made(text), ("a",), [1, 0]) == "[[a]]\nb = 2\n\n[[a]]\nb = 1\n"


def test_an_entry_with_rows_elsewhere_is_known():
    assert stand_apart(made(NEIGHBOURS), ("unit",), 3)
    assert not stand_apart(made("[[a]]\n[b]\n[a.c]\n"), ("a",), 1)


@pytest.mark.parametrize(
    ("new", "order"),
    [
        ([{"a": 2}, {"a": 1}, {"a": 1}], [2, 0, 1]),
        ([{"a": 1}, {"a": 1}, {"a": 3}], None),
        ([{"a": 1.0}, {"a": 1}, {"a": 2}], None),
        ([{"a": 1}], None),
    ],
)
def test_which_entry_each_one_was(new, order):
    assert order_among([{"a": 1}, {"a": 1}, {"a": 2}], new) == order
