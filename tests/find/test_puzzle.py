import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thruline.find import puzzle as p


@st.composite
def puzzles(draw):
    rows, checks = draw(st.integers(2, 6)), draw(st.integers(2, 5))
    cells = draw(st.lists(st.integers(0, 2), min_size=rows * checks, max_size=rows * checks))
    classes = draw(st.lists(st.integers(0, 3), min_size=rows, max_size=rows))
    weights = draw(st.lists(st.floats(0.1, 1), min_size=rows, max_size=rows))
    seconds = draw(st.lists(st.integers(1, 40), min_size=checks, max_size=checks))
    outcomes = np.array(cells, np.int64).reshape(rows, checks)
    return p.made(
        outcomes, classes, weights=np.array(weights), seconds=np.array(seconds, np.float64)
    )


def _best(puzzle, state):
    """The best plan by looking at every one."""
    if p.by_rule(puzzle, state) == p.NONE:
        return 0.0
    weight = puzzle.weights[state].sum()
    useful = np.flatnonzero(p.rates(puzzle, state) > p.TINY)
    return min(
        weight * puzzle.seconds[check]
        + sum(_best(puzzle, after) for after in p.splits(puzzle, state, check))
        for check in useful
    )


@given(puzzles())
@settings(max_examples=60)
def test_no_plan_beats_the_best_and_deeper_is_never_worse_than_the_rule(puzzle):
    state = puzzle.all_rows
    best = _best(puzzle, state)
    assert p.plan_cost(puzzle, state, 0) == pytest.approx(best)  # so few are tried out
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(p, "FEW", 1)
        puzzle.plans.clear()
        costs = [p.plan_cost(puzzle, state, depth) for depth in (0, 1, 2, 3)]
    assert all(cost >= best - 1e-9 for cost in costs)
    assert costs[3] <= costs[0] + 1e-9


def test_a_check_that_says_nothing_about_the_mend_costs_nothing_as_it_is_not_made():
    outcomes = np.array([[0, 0], [1, 0], [0, 0], [1, 0]])
    puzzle = p.made(outcomes, "aabb", weights=np.ones(4), seconds=np.ones(2))
    assert p.best_check(puzzle, puzzle.all_rows) == p.NONE
    assert p.plan_cost(puzzle, puzzle.all_rows, 0) == 0


def test_a_cheap_look_at_the_likeliest_comes_first():
    outcomes = np.array([[1, 0], [0, 1], [0, 0]])
    puzzle = p.made(
        outcomes,
        ["a", "b", "c"],
        weights=np.array([0.8, 0.1, 0.1]),
        seconds=np.array([10.0, 10.0]),
    )
    assert p.best_check(puzzle, puzzle.all_rows) == 0
    assert p.expected_seconds(puzzle, puzzle.all_rows) == pytest.approx(10 + 0.2 * 10)


def test_suspects_that_one_mend_removes_are_not_told_apart():
    outcomes = np.array([[1, 0], [0, 0]])
    puzzle = p.made(
        outcomes, ["a", "a"], weights=np.array([0.5, 0.5]), seconds=np.array([1.0, 1.0])
    )
    assert p.is_solved(puzzle, puzzle.all_rows)
    assert p.best_check(puzzle, puzzle.all_rows) == p.NONE


def test_the_more_suspects_the_less_deep():
    depths = [p.effort_for(count)[0] for count in (10, 100, 150, 1000)]
    assert depths == sorted(depths, reverse=True)
    assert depths[0] == 3
    assert depths[-1] == 0
