import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.rig.spans import MOST, spans


def read(text: str) -> tuple[list[int], int]:
    """The numbers that a list names, and how many more it counts."""
    listed, _, more = text.partition(" and ")
    numbers: list[int] = []
    for one in listed.split(", "):
        ends = [int(end) for end in re.findall(r"\d+", one)]
        numbers += range(ends[0], ends[-1] + 1) if ends else ()
    return numbers, int(more.split()[0]) if more else 0


@pytest.mark.parametrize(
    ("numbers", "says"),
    [
        ([], ""),
        ([5], "5"),
        ([1, 2], "1 to 2"),
        ([10, *range(1, 9), 3], "1 to 8, 10"),
        (range(1, 40, 2), "1, 3, 5, 7, 9, 11, 13, 15 and 12 more"),
    ],
)
def test_numbers_as_people_list_them(numbers: list[int], says: str) -> None:
    assert spans(numbers) == says


@given(st.lists(st.integers(0, 300), max_size=80))
def test_nothing_is_left_out_and_nothing_added(numbers: list[int]) -> None:
    listed, more = read(spans(numbers))
    every = sorted(set(numbers))
    assert listed == every[: len(listed)]
    assert len(listed) + more == len(every)


@given(st.sets(st.integers(0, 60), max_size=MOST))
def test_a_few_numbers_are_all_listed(numbers: set[int]) -> None:
    assert read(spans(numbers)) == (sorted(numbers), 0)
