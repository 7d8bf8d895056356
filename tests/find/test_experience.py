import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.find.experience import KIND_WEIGHT, NO_EXPERIENCE, THING_WEIGHT, Experience

NUMBERS = st.floats(0, 1000)


@given(st.floats(0.01, 10))
def test_without_cases_the_odds_of_the_table_stand(odds):
    assert NO_EXPERIENCE.moved(odds, kind="cable-open", thing="cable-open@x") == odds


@given(NUMBERS)
def test_what_is_seen_as_often_as_expected_moves_nothing(count):
    same = Experience(seen={"frozen": count}, expected={"frozen": count})
    assert same.moved(1.0, kind="frozen", thing="frozen@x") == pytest.approx(1.0)


def test_the_mean_of_the_rate_is_that_of_its_gamma_distribution():
    kinds = Experience(seen={"frozen": 6}, expected={"frozen": 2})
    rate = (KIND_WEIGHT + 6) / (KIND_WEIGHT + 2)
    assert kinds.moved(0.5, kind="frozen", thing="frozen@x") == pytest.approx(0.5 * rate)
    thing = Experience(seen={"frozen@x": 1})
    rate = (THING_WEIGHT + 1) / THING_WEIGHT
    assert thing.moved(0.5, kind="frozen", thing="frozen@x") == pytest.approx(0.5 * rate)
    assert thing.moved(0.5, kind="frozen", thing="frozen@y") == 0.5


@given(NUMBERS, NUMBERS)
def test_seen_raises_and_expected_lowers(seen, expected):
    plain = Experience(seen={"a": seen}, expected={"a": expected}).moved(1, kind="a", thing="b")
    more = Experience(seen={"a": seen + 1}, expected={"a": expected}).moved(1, kind="a", thing="b")
    less = Experience(seen={"a": seen}, expected={"a": expected + 1}).moved(1, kind="a", thing="b")
    assert less < plain < more


@given(NUMBERS, NUMBERS)
def test_two_experiences_are_one(one, other):
    both = Experience(seen={"a": one}).with_(Experience(seen={"a": other, "b": 1}))
    assert both == Experience(seen={"a": one + other, "b": 1})


def test_experiences_that_say_something_else_are_told_apart():
    one = Experience(seen={"frozen": 1.0, "deaf": 2.0})
    assert one.mark == Experience(seen={"deaf": 2.0, "frozen": 1.0}).mark
    others = [NO_EXPERIENCE, Experience(expected={"frozen": 1.0, "deaf": 2.0})]
    assert one.mark not in [other.mark for other in others]
