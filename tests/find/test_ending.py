import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.find.ending import ending, least_seconds


def _made(outcomes, classes, weights, seconds):
    return ending(outcomes, classes, weights=weights, seconds=seconds)


@st.composite
def few(draw):
    rows = draw(st.integers(2, 5))
    row = st.lists(st.integers(0, 2), min_size=rows, max_size=rows)
    outcomes = draw(st.lists(row, min_size=1, max_size=5))
    several = {"min_size": len(outcomes), "max_size": len(outcomes)}
    return (
        outcomes,
        draw(st.lists(st.integers(0, 3), min_size=rows, max_size=rows)),
        [draw(st.integers(1, 9)) / 8 for _ in range(rows)],
        draw(st.lists(st.sampled_from([2.0, 5.0, 30.0]), **several)),
    )


def _told(outcomes, classes, left):
    """Whether any check tells two of these with different mends apart."""
    return any(
        classes[one] != classes[other] and any(row[one] != row[other] for row in outcomes)
        for one in left
        for other in left
    )


def _plainly(made, left):
    """The same by every plan there is, without any thrift."""
    outcomes, classes, weights, seconds = made
    if not _told(outcomes, classes, left):
        return 0.0
    return min(
        cost * sum(weights[one] for one in left)
        + sum(_plainly(made, [one for one in left if row[one] == n]) for n in range(3))
        for row, cost in zip(outcomes, seconds, strict=True)
        if len({row[one] for one in left}) > 1
    )


@given(few())
def test_no_plan_is_quicker(made):
    count = len(made[1])
    found = least_seconds(_made(*made), (1 << count) - 1)
    assert found == pytest.approx(_plainly(made, list(range(count))))


def test_one_mend_for_all_needs_no_check():
    assert least_seconds(_made([[0, 1]], [4, 4], [1.0, 1.0], [3.0]), 0b11) == 0


def test_of_two_checks_that_part_alike_the_quicker_is_made():
    made = _made([[0, 1], [1, 0]], [4, 5], [1.0, 0.5], [9.0, 3.0])
    assert least_seconds(made, 0b11) == 4.5
