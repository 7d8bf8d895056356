import tomllib

import pytest

from thruline.document.inline import (
    append_item,
    append_member,
    container,
    drop_member,
    empty_member,
    has_own_key,
    insert_item,
    members,
    other_key,
    other_value,
    with_cuts,
)
from thruline.document.places import places
from thruline.document.sheet import row_ends_of, sheet


def made(text):
    return sheet(places(text), tomllib.loads(text), row_ends=row_ends_of(text))


@pytest.mark.parametrize(
    ("text", "changed"),
    [
        ("x = []", "x = [9]"),
        ("x = [ ]", "x = [9]"),
        ("x = [1,2,]", "x = [1,2, 9,]"),
        ("x = [\n  1, # a\n]", "x = [\n  1, # a\n  9,\n]"),
        ("x = [\n  1 # a\n]", "x = [\n  1, # a\n  9\n]"),
        ("x = [\n  1]", "x = [\n  1, 9]"),
        ("x = [\n  1 # a\n  , # b\n]", "x = [\n  1, 9 # a\n  , # b\n]"),
        ("x = [\r\n  1,\r\n]\r\n", "x = [\r\n  1,\r\n  9,\r\n]\r\n"),
        ("x = [\n  1, 2,\n  3, 4,\n]", "x = [\n  1, 2,\n  3, 4, 9,\n]"),
    ],
)
def test_one_more_item(text, changed):
    assert append_item(made(text), ("x",), 9) == changed


@pytest.mark.parametrize(
    ("text", "at", "changed"),
    [
        ("x = [1, 2]", 0, "x = [9, 1, 2]"),
        ("x = [1, 2]", 1, "x = [1, 9, 2]"),
        ("x = [\n  1,\n  2\n]", 1, "x = [\n  1,\n  9,\n  2\n]"),
    ],
)
def test_an_item_before_another(text, at, changed):
    assert insert_item(made(text), ("x", at), 9) == changed


@pytest.mark.parametrize(
    ("text", "at", "changed"),
    [
        ("x = [1, 2, 3]", 0, "x = [2, 3]"),
        ("x = [1, 2, 3]", 2, "x = [1, 2]"),
        ("x = [1, 2, 3 ,]", 2, "x = [1, 2, ]"),
        ("x = [ 1 ]", 0, "x = [ ]"),
        ("x = [\n  1, # a\n  2, # b\n]", 0, "x = [\n  2, # b\n]"),
        ("x = [\n  1, # a\n  2 # b\n]", 1, "x = [\n  1, # a\n]"),
        ("x = [\n  # a\n  1, 2,\n]", 0, "x = [\n  # a\n  2,\n]"),
        ("x = [1, # a\n 2]", 1, "x = [1 # a\n]"),
        ("x = [1 # a\n, 2]", 0, "x = [# a\n2]"),
    ],
)
def test_an_item_less(text, at, changed):
    rest = drop_member(made(text), ("x", at))
    assert rest == changed
    tomllib.loads(rest)


def test_pairs_of_inline_tables():
    one = made("x = { a.b = 1, c = { } }")
    assert container(one, ("x", "a")) == ("x",)
    assert [trail for trail, _ in members(one, ("x",))] == [("x", "a", "b"), ("x", "c")]
    assert append_member(one, ("x", "a"), "d", value=2) == "x = { a.b = 1, c = { }, a.d = 2 }"
    assert append_member(one, ("x", "c"), "d", value=2) == "x = { a.b = 1, c = { d = 2 } }"
    assert drop_member(one, ("x", "c")) == "x = { a.b = 1 }"
    assert drop_member(one, ("x", "a", "b")) == "x = { c = { } }"
    assert empty_member(one, ("x", "a", "b"), ("x", "a")) == "x = { a = {}, c = { } }"


def replace_value(one, trail, value):
    return with_cuts(one.text, [other_value(one, trail, value)])


def test_a_value_is_laid_out_as_the_old_one_was():
    assert replace_value(made("x = [\n  1,\n]"), ("x",), [2, 3]) == "x = [\n  2, 3,\n]"
    assert replace_value(made("x = [1]"), ("x",), [2, 3]) == "x = [2, 3]"
    assert replace_value(made("x = 1"), ("x",), []) == "x = []"
    long = replace_value(made("x = 1\r\n"), ("x",), list(range(50)))
    assert long.startswith("x = [\r\n  0, 1,")
    assert long.endswith("49,\r\n]\r\n")
    assert "\n" not in replace_value(made("x = [1]"), ("x", 0), list(range(50)))


def test_keys_and_values_are_exchanged_at_once():
    one = made('[a]\n"b" = 1 # x\nc = { d = 2 }\n')
    cuts = [
        other_value(one, ("a", "c", "d"), 3),
        other_key(one, ("a", "b"), "wide key"),
        other_key(one, ("a", "c", "d"), "e"),
    ]
    assert with_cuts(one.text, cuts) == '[a]\n"wide key" = 1 # x\nc = { e = 3 }\n'


def test_a_key_with_a_dot_or_a_header_is_not_its_own():
    one = made("a.b = 1\nc = { d.e = 2, f = 3 }\n[g]\n[h]\ni = 1\n")
    own = [trail for trail in one.where.of if has_own_key(one, trail)]
    assert own == [("c", "f"), ("c",), ("h", "i")]
