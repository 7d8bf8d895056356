import tomllib

from thruline.document.blocks import (
    add_block,
    add_dotted,
    add_header,
    add_pair,
    append_entry,
    drop_rows,
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
