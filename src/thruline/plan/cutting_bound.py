"""How few spools it could be at best, by a sharper bound that takes some tenths of a second.

Each way to cut one spool is a pattern, and the fewest patterns that make all pieces, in real
numbers, are a bound. There are far too many patterns to write down, so one starts with those of a
list and adds, as long as there is one, the pattern that is worth most at the prices of the pieces
(column generation after Gilmore and Gomory).
"""

import math
from collections import Counter
from collections.abc import Mapping, Sequence

import numpy as np

from thruline.plan.solver import CLOSE, Problem, solve_linear, whole_above

ROUNDS = 120
"""Patterns that are added at most."""

Pattern = tuple[tuple[int, int], ...]
"""Sizes, and how many of each."""


def sharper_bound(
    sizes: Sequence[int],
    spool: int,
    *,
    patterns: Sequence[Sequence[int]],
    enough: int,
    known: int = 0,
) -> int:
    """A number of spools that no way of cutting is below.

    `patterns` are spools as somebody would cut them, by the sizes on each. The search ends when the
    bound is `enough`, or cannot become sharper than `known`, a bound already.
    """
    if not sizes:
        return 0
    part = math.gcd(spool, *sizes)
    if part > 1:
        return sharper_bound(
            [one // part for one in sizes],
            spool // part,
            patterns=[[one // part for one in each] for each in patterns],
            enough=enough,
            known=known,
        )
    wanted = Counter(sizes)
    columns: dict[Pattern, None] = {_pattern(one): None for one in patterns}
    columns.update({((size, 1),): None for size in wanted})
    best = known
    for _ in range(ROUNDS):
        prices = _prices(wanted, list(columns))
        if whole_above(sum(prices[size] * count for size, count in wanted.items())) <= best:
            break  # with more patterns it can only become less
        worth, pattern = _worth_most(prices, wanted, spool)
        total = sum(prices[size] * count for size, count in wanted.items())
        # At prices at which no pattern is worth more than one, what all is worth is a bound.
        best = max(best, whole_above(total / max(worth, 1.0)))
        if best >= enough or worth <= 1 + CLOSE or pattern in columns:
            break
        columns[pattern] = None
    return best


def _pattern(sizes: Sequence[int]) -> Pattern:
    return tuple(sorted(Counter(sizes).items()))


def _prices(wanted: Mapping[int, int], patterns: Sequence[Pattern]) -> dict[int, float]:
    """What one more piece of each size would cost, in spools."""
    problem = Problem()
    used: dict[int, list[tuple[int, float]]] = {size: [] for size in wanted}
    for pattern in patterns:
        number = problem.variable(1, most=np.inf)
        for size, count in pattern:
            used[size].append((number, float(count)))
    for size, count in wanted.items():
        problem.row(used[size], low=count)
    found = solve_linear(problem)
    if found is None:  # each size has a pattern of its own
        return dict.fromkeys(wanted, 0.0)
    return {size: max(0.0, price) for size, price in zip(wanted, found.prices, strict=True)}


def _worth_most(
    prices: Mapping[int, float], wanted: Mapping[int, int], spool: int
) -> tuple[float, Pattern]:
    """The pieces that fit on a spool and are worth most together, no more than are wanted."""
    best = np.zeros(spool + 1)
    taken: list[tuple[int, int, np.ndarray]] = []
    for size, count in wanted.items():
        for times in _powers(min(count, spool // size)):
            length, gain = size * times, prices[size] * times
            better = best[:-length] + gain if length else best
            mark = better > best[length:] + CLOSE * CLOSE
            best[length:] = np.where(mark, better, best[length:])
            taken.append((size, times, mark))
    room, pieces = spool, Counter[int]()
    for size, times, mark in reversed(taken):
        length = size * times
        if room >= length and mark[room - length]:
            pieces[size] += times
            room -= length
    return float(best[spool]), tuple(sorted(pieces.items()))


def _powers(count: int) -> list[int]:
    """Numbers of which every number up to `count` is a sum, each used once."""
    parts, step = [], 1
    while count > 0:
        parts.append(min(step, count))
        count -= step
        step *= 2
    return parts
