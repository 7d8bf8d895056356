import tomllib

import pytest
from hypothesis import given

from tests.document.toml_texts import documents
from thruline.base.spot import Spot
from thruline.document.places import BOM, MAX_DEPTH, Kind, Lost, Places, TooDeep, places, row_starts
from thruline.document.plain import same


def leaves(data, trail=()):
    """Every trail in the data with its value, but for the root."""
    inner = data.items() if isinstance(data, dict) else enumerate(data)
    for part, value in inner:
        yield (*trail, part), value
        if isinstance(value, dict | list):
            yield from leaves(value, (*trail, part))


@given(documents())
def test_every_value_reads_alone_as_it_reads_in_the_text(document):
    text, data = document
    found = places(text)
    assert set(found.of) == {trail for trail, _ in leaves(data)}
    for trail, value in leaves(data):
        place = found.of[trail]
        if place.kind in (Kind.PAIR, Kind.INNER, Kind.ITEM):
            assert same(tomllib.loads(f"v = {text[place.start : place.end]}")["v"], value)


@given(documents())
def test_every_key_stands_where_it_is_said_to_stand(document):
    text, _ = document
    for trail, place in places(text).of.items():
        written = text[place.key : place.key_end]
        if place.kind in (Kind.PAIR, Kind.INNER):
            names = list(leaves(tomllib.loads(f"{written} = 1")))[-1][0]
            assert trail[-len(names) :] == names
        elif place.kind in (Kind.HEADER, Kind.ENTRY):
            assert written.startswith("[")
            assert written.endswith("]")


def test_all_kinds():
    text = "d.e = 1\nl = [{ x.y = 2 }]\n[a.b]\n[[c]]\n"
    kinds = {trail: place.kind for trail, place in places(text).of.items()}
    assert kinds == {
        ("d",): Kind.DOTTED,
        ("d", "e"): Kind.PAIR,
        ("l",): Kind.PAIR,
        ("l", 0): Kind.ITEM,
        ("l", 0, "x"): Kind.INNER_DOTTED,
        ("l", 0, "x", "y"): Kind.INNER,
        ("a",): Kind.IMPLIED,
        ("a", "b"): Kind.HEADER,
        ("c",): Kind.ENTRIES,
        ("c", 0): Kind.ENTRY,
    }


@pytest.mark.parametrize(
    ("text", "span", "spot"),
    [
        ("a = 1\nbc = 22\n", (11, 13), Spot("f", 2, 6, 2)),
        ("a = 1\r\nbc = 22\r\n", (12, 14), Spot("f", 2, 6, 2)),
        (f"{BOM}abc = 1", (1, 4), Spot("f", 1, 1, 3)),
        ("a = [\n1]", (4, 8), Spot("f", 1, 5, 1)),
        ("ü = 1", (4, 5), Spot("f", 1, 5, 1)),
        ("", (0, 0), Spot("f", 1, 1, 0)),
    ],
)
def test_spots_count_rows_and_columns_from_one(text, span, spot):
    assert places_without_reading(text).spot("f", *span) == spot


def places_without_reading(text):
    return Places(text, {}, row_starts(text))


@pytest.mark.parametrize(
    "text",
    ["a = " + "[" * 99_999 + "]" * 99_999, "a." * 99_999 + "b = 1", "[" + "a." * 99_999 + "a]"],
)
def test_deep_nesting_is_refused_without_recursion(text):
    with pytest.raises(TooDeep):
        places(text)


def test_the_deepest_that_is_read():
    text = "a = " + "[" * (MAX_DEPTH - 1) + "]" * (MAX_DEPTH - 1)
    assert max(map(len, places(text).of)) == MAX_DEPTH - 1
    with pytest.raises(TooDeep):
        places("a = " + "[" * MAX_DEPTH + "]" * MAX_DEPTH)


@pytest.mark.parametrize(
    ("text", "opened"),
    [("a = [1, {b = 2", (4, 8)), ('a = "', ()), ("a = [[1]", (4,)), ("[a", (0,))],
)
def test_what_is_open_where_a_text_breaks_off(text, opened):
    with pytest.raises(Lost) as lost:
        places(text)
    assert lost.value.opened == opened


def test_the_first_key_given_twice():
    trail, first, second = places("a = 1\n[b]\nc = 1\nc = 2\n").twice
    assert trail == ("b", "c")
    assert (first.key, second.key) == (10, 16)
    assert places("a.b = 1\na.c = 2\n[d.e]\n[d]\n[[f]]\n[[f]]\n").twice is None


def test_the_nearest_place_around_a_path():
    found = places("[[unit]]\nid = 'a'\n")
    assert found.nearest(("unit", 0, "place", "x"))[0] == ("unit", 0)
    assert found.nearest(("song", 3)) == ((), None)
