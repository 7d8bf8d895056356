"""The door to the solver library."""

import random

import pytest

from thruline.plan.solver import Problem, solve_each, solve_linear, solve_whole, whole_above


def knapsack() -> Problem:
    """Worth 5, 4, 3 at weights 2, 3, 1; at most 4 in all."""
    problem = Problem()
    things = [problem.variable(-worth) for worth in (5, 4, 3)]
    problem.row(zip(things, (2, 3, 1), strict=True), high=4)
    return problem


def test_real_numbers_bound_whole_ones():
    real, whole = solve_linear(knapsack()), solve_whole(knapsack())
    assert real is not None
    assert whole is not None
    assert real.cost == pytest.approx(-8 - 4 / 3)
    assert not real.is_whole
    assert whole.cost == whole.bound == pytest.approx(-8)
    assert whole.values == pytest.approx((1, 0, 1))


def test_what_is_off_is_left_out():
    found = solve_whole(knapsack(), off=[0])
    assert found is not None
    assert found.values == pytest.approx((0, 1, 1))


def test_no_answer_is_none():
    problem = Problem()
    problem.row([(problem.variable(1), 1)], low=2)
    assert solve_linear(problem) is None
    assert solve_whole(problem) is None


def test_a_row_may_be_bounded_below():
    problem = Problem()
    number = problem.variable(1, most=9)
    problem.row([(number, 1)], low=3)
    assert solve_linear(problem).cost == pytest.approx(3)
    assert solve_whole(problem).values == pytest.approx((3,))


@pytest.mark.parametrize(
    ("cost", "whole"), [(3.0, 3), (3.0000000001, 3), (2.9999999, 3), (3.01, 4), (0.0, 0)]
)
def test_a_bound_of_whole_costs_is_rounded_up(cost, whole):
    assert whole_above(cost) == whole


def test_nothing_to_choose_is_an_answer_unless_something_is_wanted():
    problem = Problem()
    assert solve_linear(problem).cost == solve_whole(problem).cost == 0
    problem.row([], low=1, high=1)
    assert solve_linear(problem) is solve_whole(problem) is None


def test_answers_one_after_the_other_are_those_of_each_alone():
    dice = random.Random(3)
    problem = Problem()
    for _ in range(12):
        problem.variable(dice.randint(1, 9))
    for start in range(0, 12, 3):
        problem.row([(start + step, 1) for step in range(3)], low=1, high=1)
    problem.row([(number, dice.randint(1, 4)) for number in range(12)], high=9)
    offs = [dice.sample(range(12), dice.randint(0, 7)) for _ in range(30)]
    costs = [one and one.cost for one in solve_each(problem, offs)]
    alone = [one and one.cost for off in offs for one in solve_each(problem, [off])]
    assert costs == pytest.approx(alone)
    assert None in costs


def test_the_library_prints_nothing(capfd):
    assert solve_whole(knapsack()) is not None
    assert capfd.readouterr().out == ""
