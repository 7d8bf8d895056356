"""The one door to the solver library: a linear problem as data, and its answers.

HiGHS is loaded when it is first asked: most commands plan nothing. It works in one thread and gives
the same answer to the same problem every time.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

CLOSE = 1e-6
"""How far a number may be from a whole one and still be taken for it."""

Term = tuple[int, float]
"""A variable by its number, and how often it counts."""


@dataclass(slots=True)
class Problem:
    """Variables between 0 and `most`, each with its cost, and rows that bound sums of them.

    It is filled step by step and then solved; nothing else here changes.
    """

    costs: list[float] = field(default_factory=list)
    most: list[float] = field(default_factory=list)
    rows: list[tuple[Term, ...]] = field(default_factory=list)
    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)

    def variable(self, cost: float, *, most: float = 1) -> int:
        """One more variable; its number."""
        self.costs.append(cost)
        self.most.append(most)
        return len(self.costs) - 1

    def row(self, terms: Iterable[Term], *, low: float = -np.inf, high: float = np.inf) -> None:
        """Bound a sum of variables."""
        self.rows.append(tuple(terms))
        self.low.append(low)
        self.high.append(high)


@dataclass(frozen=True, slots=True)
class Solved:
    """A best answer. `bound` is what no answer is below; it equals `cost` when that is proved.

    `prices` say for each row what the cost gains when its bound moves by one (in real numbers).
    """

    cost: float
    bound: float
    values: tuple[float, ...]
    prices: tuple[float, ...] = ()

    @property
    def is_whole(self) -> bool:
        """Whether every value is a whole number."""
        return all(abs(value - round(value)) < CLOSE for value in self.values)


def whole_above(cost: float) -> int:
    """The least whole number that is no lower than a bound of costs in whole numbers."""
    return math.ceil(cost - CLOSE * max(1.0, abs(cost)))


def solve_linear(problem: Problem) -> Solved | None:
    """The best answer in real numbers; None when there is none."""
    return next(solve_each(problem, [()]))


def solve_each(problem: Problem, offs: Iterable[Sequence[int]]) -> Iterator[Solved | None]:
    """The best answers in real numbers of one problem, other variables held at nought each time.

    None where there is none. Each search begins where the one before has ended.
    """
    if not problem.costs:
        for _ in offs:
            yield _of_nothing(problem)
        return
    library = _library()
    solver = _loaded(library, problem, is_whole=False)
    every, least = np.arange(len(problem.costs), dtype=np.int32), np.zeros(len(problem.costs))
    for off in offs:
        solver.changeColsBounds(every.size, every, least, _limits(problem, off))
        solver.run()
        if solver.getModelStatus() != library.HighsModelStatus.kOptimal:
            yield None
            continue
        cost = float(solver.getInfo().objective_function_value)
        found = solver.getSolution()
        yield Solved(cost, cost, tuple(found.col_value), tuple(found.row_dual))


def solve_whole(
    problem: Problem,
    *,
    off: Sequence[int] = (),
    seconds: float | None = None,
    is_tight: bool = False,
) -> Solved | None:
    """The best answer in whole numbers; None when there is none, or none was found in time.

    A problem that `is_tight` says nothing twice: the library need not look for what can be left out
    first, which can take longer than the search.
    """
    if not problem.costs:
        return _of_nothing(problem)
    library = _library()
    solver = _loaded(library, problem, is_whole=True, off=off)
    solver.setOptionValue("mip_rel_gap", 0.0)
    if is_tight:
        solver.setOptionValue("presolve", "off")
    if seconds is not None:
        solver.setOptionValue("time_limit", float(seconds))
    solver.run()
    told = solver.getInfo()
    if told.primal_solution_status != library.SolutionStatus.kSolutionStatusFeasible:
        return None
    cost = float(told.objective_function_value)
    is_best = solver.getModelStatus() == library.HighsModelStatus.kOptimal
    bound = cost if is_best else float(told.mip_dual_bound)
    return Solved(cost, bound, tuple(solver.getSolution().col_value))


def _of_nothing(problem: Problem) -> Solved | None:
    """The answer to a problem without variables: every row sums to nought, and must allow that."""
    fits = all(low <= 0 <= high for low, high in zip(problem.low, problem.high, strict=True))
    return Solved(0, 0, ()) if fits else None


def _library() -> Any:  # noqa: ANN401 - the library has no types
    import highspy  # noqa: PLC0415 - only plans need it

    return highspy


def _loaded(library: Any, problem: Problem, *, is_whole: bool, off: Sequence[int] = ()) -> Any:  # noqa: ANN401 - objects of the library
    """A solver that holds the problem."""
    model = library.HighsLp()
    model.num_col_, model.num_row_ = len(problem.costs), len(problem.rows)
    model.col_cost_ = np.array(problem.costs, dtype=float)
    model.col_lower_, model.col_upper_ = np.zeros(len(problem.costs)), _limits(problem, off)
    model.row_lower_, model.row_upper_ = (
        _finite(library, problem.low),
        _finite(library, problem.high),
    )
    if is_whole:
        model.integrality_ = [library.HighsVarType.kInteger] * len(problem.costs)
    rows = [_summed(row) for row in problem.rows]
    model.a_matrix_.format_ = library.MatrixFormat.kRowwise
    model.a_matrix_.start_ = np.cumsum([0, *(len(row) for row in rows)], dtype=np.int32)
    model.a_matrix_.index_ = np.array([one for row in rows for one in row], dtype=np.int32)
    model.a_matrix_.value_ = np.array([one for row in rows for one in row.values()], dtype=float)
    solver = library._Highs()  # noqa: SLF001 - the same without callbacks, which print a greeting
    solver.setOptionValue("output_flag", False)  # noqa: FBT003 - as the library has it
    solver.setOptionValue("parallel", "off")
    solver.passModel(model)
    return solver


def _summed(row: Iterable[Term]) -> dict[int, float]:
    """A row by variable: the library takes none twice."""
    found: dict[int, float] = {}
    for number, factor in row:
        found[number] = found.get(number, 0.0) + factor
    return found


def _finite(library: Any, bounds: Sequence[float]) -> Any:  # noqa: ANN401 - an array of the library
    return np.clip(np.array(bounds, dtype=float), -library.kHighsInf, library.kHighsInf)


def _limits(problem: Problem, off: Sequence[int]) -> Any:  # noqa: ANN401 - an array of the library
    most = np.array(problem.most, dtype=float)
    most[list(off)] = 0
    return most
