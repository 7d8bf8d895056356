"""The best plan of checks that there is, by search: no rule, however clever, needs less time.

Branch and bound over states. A state costs at least, for each suspect in it, the dearest of the
cheapest checks that tell it from another mend; and every suspect must be told from all others.
"""

from dataclasses import dataclass, field

import numpy as np

from thruline.find.puzzle import (
    NONE,
    TINY,
    Floats,
    Puzzle,
    Whole,
    best_check,
    cost_after,
    is_solved,
    rates,
    splits,
)

MOST_STATES = 400
"""States that are looked into before the search gives up; a second’s work at most."""
SLACK = 1e-9
"""What two plans may differ by in rounding."""


@dataclass(slots=True, eq=False)
class Search:
    """A search, with what it knows of each state: its exact cost, or a bound for it."""

    puzzle: Puzzle
    most: int
    apart: Floats
    states: int = 0
    exact: dict[bytes, tuple[float, int]] = field(default_factory=dict)
    least: dict[bytes, float] = field(default_factory=dict)


class TooLarge(Exception):
    """The search would take too long."""


def exact(puzzle: Puzzle, state: Whole, *, most: int = MOST_STATES) -> tuple[float, int] | None:
    """The weighted seconds of the best plan and its first check; None where that takes too long."""
    search = Search(puzzle, most, _apart(puzzle))
    try:
        return _solve(search, state, float("inf"))
    except TooLarge:
        return None


def _apart(puzzle: Puzzle) -> Floats:
    """For each two suspects the seconds of the cheapest check that tells them apart.

    0 where one mend does for both, or where nothing tells them apart.
    """
    count = puzzle.classes.size
    cheapest = np.full((count, count), np.inf)
    for check in range(puzzle.seconds.size):
        column = puzzle.outcomes[:, check]
        differ = column[:, None] != column[None, :]
        np.minimum(cheapest, np.where(differ, puzzle.seconds[check], np.inf), out=cheapest)
    same = puzzle.classes[:, None] == puzzle.classes[None, :]
    return np.where(same | ~np.isfinite(cheapest), 0.0, cheapest)


def _bound(search: Search, state: Whole) -> float:
    """What a state costs at least, in weighted seconds."""
    key = state.tobytes()
    known = search.least.get(key)
    if known is None:
        dearest = search.apart[np.ix_(state, state)].max(axis=1, initial=0.0)
        known = search.least[key] = float(search.puzzle.weights[state] @ dearest)
    return known


def _solve(search: Search, state: Whole, limit: float) -> tuple[float, int] | None:
    """The exact cost of a state, if it is below `limit`."""
    puzzle = search.puzzle
    if is_solved(puzzle, state):
        return 0.0, NONE
    key = state.tobytes()
    if key in search.exact:
        return search.exact[key]
    search.states += 1
    if search.states > search.most:
        raise TooLarge
    return _branch(search, state, limit)


def _branch(search: Search, state: Whole, limit: float) -> tuple[float, int] | None:
    puzzle, key = search.puzzle, state.tobytes()
    start = best_check(puzzle, state, depth=2)
    if start == NONE:
        search.exact[key] = (0.0, NONE)
        return search.exact[key]
    best = cost_after(puzzle, state, check=start, depth=2), start
    whole = best[0] < limit
    limit = min(limit, best[0])
    for check, floor, after in _worth_trying(search, state):
        if floor >= limit - SLACK:
            break
        cost = _cost(
            search, after, float(puzzle.weights[state].sum() * puzzle.seconds[check]), floor, limit
        )
        if cost is not None and cost < limit - SLACK:
            best, limit, whole = (cost, check), cost, True
    if whole:
        search.exact[key] = best
        return best
    search.least[key] = max(search.least.get(key, 0.0), limit)
    return None


def _cost(
    search: Search, after: list[Whole], paid: float, floor: float, limit: float
) -> float | None:
    """The cost of a check with the best plans behind it; None where that is not below `limit`."""
    for state in sorted(after, key=lambda one: -_bound(search, one)):
        least = _bound(search, state)
        found = _solve(search, state, limit - floor + least)
        if found is None:
            return None
        paid += found[0]
        floor += found[0] - least
        if floor >= limit - SLACK:
            return None
    return paid


def _worth_trying(search: Search, state: Whole) -> list[tuple[int, float, list[Whole]]]:
    """Checks that tell something, each with the least it can cost, the least first.

    Of checks that split a state alike only the cheapest is looked at.
    """
    puzzle = search.puzzle
    rate = rates(puzzle, state)
    useful = np.flatnonzero(rate > TINY)
    order = useful[np.argsort(puzzle.seconds[useful], kind="stable")]
    seen: set[bytes] = set()
    found = []
    weight = float(puzzle.weights[state].sum())
    for check in order.tolist():
        split = _shape(puzzle.outcomes[state, check])
        if split in seen:
            continue
        seen.add(split)
        after = splits(puzzle, state, check)
        floor = weight * puzzle.seconds[check] + sum(_bound(search, one) for one in after)
        found.append((check, float(floor), after))
    return sorted(found, key=lambda one: one[1])


def _shape(column: Whole) -> bytes:
    """How a check splits a state, whatever its answers are called."""
    _, first, where = np.unique(column, return_index=True, return_inverse=True)
    return first[where.reshape(-1)].tobytes()
