"""The one door to the solver library: a linear problem as data, and its answers.

HiGHS (through SciPy) is loaded when it is first asked, because loading takes a third of a second.
It works in one thread and gives the same answer to the same problem every time.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from enum import IntEnum
from typing import Any

import numpy as np

CLOSE = 1e-6
"""How far a number may be from a whole one and still be taken for it."""

Term = tuple[int, float]
"""A variable by its number, and how often it counts."""


class _Status(IntEnum):
    """What the library reports of a problem."""

    OPTIMAL = 0
    INFEASIBLE = 2


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


def solve_linear(problem: Problem, *, off: Sequence[int] = ()) -> Solved | None:
    """The best answer in real numbers; None when there is none. Variables in `off` are nought."""
    from scipy.optimize import linprog  # type: ignore[import-untyped] # noqa: PLC0415 - heavy

    if not problem.costs:
        return _of_nothing(problem)
    matrix, low, high = _matrix(problem)
    equal = low == high
    upper, lower = ~equal & np.isfinite(high), ~equal & np.isfinite(low)
    found = linprog(
        problem.costs,
        A_ub=_stacked(matrix[upper], -matrix[lower]),
        b_ub=np.concatenate([high[upper], -low[lower]]),
        A_eq=matrix[equal],
        b_eq=low[equal],
        bounds=np.column_stack([np.zeros(len(problem.costs)), _limits(problem, off)]),
        method="highs",
    )
    if found.status == _Status.INFEASIBLE:
        return None
    prices = np.zeros(len(problem.rows))
    prices[equal] = found.eqlin.marginals
    first = int(upper.sum())
    prices[upper] += found.ineqlin.marginals[:first]
    prices[lower] -= found.ineqlin.marginals[first:]
    cost = float(found.fun)
    return Solved(cost, cost, tuple(found.x.tolist()), tuple(prices.tolist()))


def solve_whole(
    problem: Problem, *, off: Sequence[int] = (), seconds: float | None = None
) -> Solved | None:
    """The best answer in whole numbers; None when there is none, or none was found in time."""
    from scipy.optimize import Bounds, LinearConstraint, milp  # noqa: PLC0415 - heavy

    if not problem.costs:
        return _of_nothing(problem)
    matrix, low, high = _matrix(problem)
    found = milp(
        problem.costs,
        constraints=LinearConstraint(matrix, low, high),
        integrality=np.ones(len(problem.costs)),
        bounds=Bounds(0, _limits(problem, off)),
        options={"mip_rel_gap": 0} | ({} if seconds is None else {"time_limit": seconds}),
    )
    if found.x is None:
        return None
    bound = float(found.fun if found.status == _Status.OPTIMAL else found.mip_dual_bound)
    return Solved(float(found.fun), bound, tuple(found.x.tolist()))


def _of_nothing(problem: Problem) -> Solved | None:
    """The answer to a problem without variables: every row sums to nought, and must allow that."""
    fits = all(low <= 0 <= high for low, high in zip(problem.low, problem.high, strict=True))
    return Solved(0, 0, ()) if fits else None


def _limits(problem: Problem, off: Sequence[int]) -> Any:  # noqa: ANN401 - an array of the library
    most = np.array(problem.most, dtype=float)
    most[list(off)] = 0
    return most


def _matrix(problem: Problem) -> tuple[Any, Any, Any]:
    """The rows as a sparse matrix, and their bounds."""
    from scipy.sparse import csr_array  # type: ignore[import-untyped] # noqa: PLC0415 - heavy

    values = [factor for row in problem.rows for _, factor in row]
    columns = [number for row in problem.rows for number, _ in row]
    starts = np.cumsum([0, *(len(row) for row in problem.rows)])
    shape = (len(problem.rows), len(problem.costs))
    matrix = csr_array((values, columns, starts), shape=shape, dtype=float)
    matrix.sum_duplicates()  # the library takes no variable twice in a row
    return matrix, np.array(problem.low), np.array(problem.high)


def _stacked(above: Any, below: Any) -> Any:  # noqa: ANN401 - matrices of the library
    from scipy.sparse import vstack  # noqa: PLC0415 - heavy

    return vstack([above, below], format="csr")
