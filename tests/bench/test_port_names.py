from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.bench.port_names import (
    Known,
    after_going,
    bare_name,
    equals_of,
    known_again,
    known_from,
    told_apart,
    without_places,
)

names = st.lists(st.sampled_from(["A", "A (1)", "A (2)", "A (1) (1)", "B 20:0", "B", ""]))


@given(names)
def test_told_apart_no_two_are_the_same_and_single_ones_are_as_they_were(given_names):
    told = told_apart(given_names)
    assert len(told) == len(given_names) == len(set(told))
    often = Counter(given_names)
    for was, now in zip(given_names, told, strict=True):
        assert (now == was) == (often[was] == 1)
        assert now.startswith(was)


def test_numbers_are_no_part_of_a_name():
    assert bare_name("Port 20:0") == bare_name("Port 131:12") == bare_name("Port (2)") == "Port"
    assert bare_name("Port 2") == "Port 2"
    assert equals_of("P (1)", ["P (1)", "Q", "P (2)"]) == ["P (1)", "P (2)"]


@given(st.lists(st.text()))
def test_places_behind_names_are_taken_off_and_nothing_else(given_names):
    placed = [f"{name} {place}" for place, name in enumerate(given_names)]
    assert without_places(placed) == given_names


def test_a_name_that_only_looks_so_keeps_its_number():
    assert without_places(["Port 2", "Port 1"]) == ["Port 2", "Port"]


@pytest.mark.parametrize(
    ("opened", "left", "now", "found"),
    [
        (["A"], [], ["A"], "A"),
        (["A 20:0"], [], ["A 28:0"], "A 28:0"),
        (["A 20:0", "A 24:0"], ["A 24:0"], ["A 24:0"], None),
        (["A 20:0", "A 24:0"], ["A 24:0"], ["A 24:0", "A 28:0"], "A 28:0"),
        (["A 20:0", "A 24:0"], [], ["A 28:0"], None),
        (["A 20:0", "A 24:0"], [], ["A 28:0", "A 32:0"], "A 28:0"),
        (["A (1)", "A (2)"], ["A"], ["A"], None),
        (["A (1)", "A (2)"], ["A"], ["A (1)", "A (2)"], "A (1)"),
        (["A"], ["A"], ["A"], None),
        (["A"], [], ["B"], None),
        (["A"], ["A"], ["A (1)", "A (2)", "A (3)"], None),
    ],
)
def test_the_first_that_was_opened_is_known_again(opened, left, now, found):
    """Opened among some, some left when it had gone, some there now."""
    known = after_going(known_from(opened[0], opened), left)
    assert known_again(known, now) == found


@given(st.integers(1, 4), st.data())
def test_of_equal_ones_a_twin_that_stayed_is_never_taken_for_it(count, data):
    opened = [f"A {20 + 4 * place}:0" for place in range(count)]
    name = data.draw(st.sampled_from(opened))
    left = [one for one in opened if one != name]
    known = after_going(known_from(name, opened), left)
    assert known_again(known, left) is None
    assert known_again(known, [*left, "A 99:0"]) == "A 99:0"


def test_a_port_that_is_not_in_the_list_is_the_only_one():
    assert known_from("A", []) == Known("A", 0, 1)
