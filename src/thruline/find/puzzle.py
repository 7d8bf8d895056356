"""Which check next, if every answer could be trusted: expected seconds until the mend is known.

A state is the set of suspects that are left. Information per second picks a check; trying the best
few of these, each followed by that rule to the end, picks better; and a plan made so can stand
behind the next in turn. The last few suspects are told apart by the best plan there is, and where
nobody has to wait, three deep, so are all.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from thruline.find.ending import ending, least_seconds

Floats: TypeAlias = NDArray[np.float64]
Whole: TypeAlias = NDArray[np.int64]
_EFFORTS = ((60, 3, 6), (130, 2, 6), (240, 1, 6))
"""Up to so many suspects, plan so deep, with so many checks tried at each step."""
MOST_WEIGHED = 120
"""Suspects by which it is reckoned how long it will still take."""
TINY = 1e-9
"""Bits per second that are nothing but rounding."""
FEW = 7
"""Suspects up to which the best plan is found by trying all."""
NONE = -1
"""No check tells anything more."""


@dataclass(slots=True, eq=False)
class Puzzle:
    """Suspects by row, checks by column; what was worked out is kept by state.

    `weights` of the rows need not sum to 1. Rows of one `classes` number need not be told apart.
    `widths` are how many answers each check has.
    """

    outcomes: Whole
    classes: Whole
    weights: Floats
    seconds: Floats
    widths: Whole = field(init=False)
    plans: dict[tuple[int, bytes], float] = field(default_factory=dict)
    rated: dict[bytes, Floats] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.widths = self.outcomes.max(axis=0, initial=0) + 1

    @property
    def all_rows(self) -> Whole:
        """The state in which nothing was asked yet."""
        return np.arange(self.classes.size)


def made(outcomes: Whole, classes: Sequence[object], *, weights: Floats, seconds: Floats) -> Puzzle:
    """A puzzle without what does not matter.

    Rows that no check tells apart and that one mend removes are put together.
    """
    names = {name: number for number, name in enumerate(dict.fromkeys(classes))}
    numbers = np.array([names[name] for name in classes], np.int64)
    keyed = np.column_stack([outcomes.astype(np.int64), numbers])
    places: dict[bytes, int] = {}  # quicker than to sort such long rows
    where = np.array([places.setdefault(one.tobytes(), len(places)) for one in keyed], np.int64)
    firsts = np.unique(where, return_index=True)[1]
    summed = counted(where, weights, len(places))
    return Puzzle(outcomes[firsts], numbers[firsts], summed, seconds.astype(np.float64))


def is_solved(puzzle: Puzzle, state: Whole) -> bool:
    """Whether one mend is known to do."""
    return state.size <= 1 or bool((puzzle.classes[state] == puzzle.classes[state[0]]).all())


def rates(puzzle: Puzzle, state: Whole) -> Floats:
    """Bits about the mend per second, for every check."""
    key = state.tobytes()
    known = puzzle.rated.get(key)
    if known is None:
        known = puzzle.rated[key] = _bits(puzzle, state) / puzzle.seconds
    return known


def _bits(puzzle: Puzzle, state: Whole) -> Floats:
    """Bits that each check tells about the mend: its own, less those it has when that is known."""
    found = np.zeros(puzzle.seconds.size)
    outcomes = puzzle.outcomes[state]
    open_ones = np.flatnonzero((outcomes != outcomes[0]).any(axis=0))  # all others tell nothing
    if not open_ones.size:
        return found
    weights = puzzle.weights[state] / puzzle.weights[state].sum()
    ends = np.cumsum(puzzle.widths[open_ones])
    begins, cells = ends - puzzle.widths[open_ones], int(ends[-1])
    places = outcomes[:, open_ones] + begins
    each = np.repeat(weights, places.shape[1])
    told = _logs(counted(places, each, cells))
    classes = puzzle.classes[state]
    there = np.bincount(classes)  # by class; quicker than to sort, as numbers are small
    dense, rows = (np.cumsum(there > 0) - 1)[classes], there[there > 0]
    shared = rows[dense] > 1  # a mend for one row alone leaves nothing open once it is known
    if shared.any():
        mends = dense[shared]
        both = counted(
            places[shared] + (mends * cells)[:, None],
            each.reshape(places.shape)[shared],
            int(rows.size) * cells,
        )
        told -= _logs(both).reshape(rows.size, cells).sum(axis=0)
        known = float(_logs(counted(mends, weights[shared], int(rows.size))).sum())
    else:
        known = 0.0
    found[open_ones] = np.maximum(np.add.reduceat(told, begins) + known, 0.0)
    return found


def counted(places: Whole, weights: Floats, size: int) -> Floats:
    """The sum of the weights at each place."""
    return np.bincount(places.ravel(), weights=weights.ravel(), minlength=size).astype(np.float64)


def _logs(shares: Floats) -> Floats:
    """Of each share what it adds to the entropy, in bits."""
    return -shares * np.log2(shares, out=np.zeros_like(shares), where=shares > 0)


def splits(puzzle: Puzzle, state: Whole, check: int) -> list[Whole]:
    """The states that the answers of a check lead to."""
    seen = puzzle.outcomes[state, check]
    return [state[seen == answer] for answer in np.flatnonzero(np.bincount(seen))]


def by_rule(puzzle: Puzzle, state: Whole) -> int:
    """The check with the most information per second; NONE where nothing tells more."""
    if is_solved(puzzle, state):
        return NONE
    rate = rates(puzzle, state)
    best = int(rate.argmax())
    return best if rate[best] > TINY else NONE


def best_check(puzzle: Puzzle, state: Whole, *, depth: int | None = None) -> int:
    """The best check to begin with: the few most telling ones tried, each with a plan behind it.

    At `depth` 1 the plan behind is the rule, at 2 the one that this function makes at 1, and so on;
    by default as deep as nobody has to wait for.
    """
    if depth is None:
        depth = effort_for(state.size)[0]
    if is_solved(puzzle, state):
        return NONE
    if not depth:
        return by_rule(puzzle, state)
    rate = rates(puzzle, state)
    width = effort_for(puzzle.classes.size)[1]
    ranked = [int(one) for one in np.argsort(-rate, kind="stable")[:width] if rate[one] > TINY]
    best, least = NONE, math.inf
    for one in ranked:
        cost = cost_after(puzzle, state, check=one, depth=depth - 1, most=least)
        if cost < least:
            best, least = one, cost
    return best


def effort_for(count: int) -> tuple[int, int]:
    """How deep and how wide to plan for so many suspects."""
    found = ((depth, width) for most, depth, width in _EFFORTS if count <= most)
    return next(found, (0, 1))


def plan_cost(puzzle: Puzzle, state: Whole, depth: int) -> float:
    """Expected seconds, weighted, when every check is picked by `best_check` at this depth.

    Of a few suspects they are those of the best plan there is, at any depth.
    """
    few = state.size <= FEW
    key = (0 if few else depth, state.tobytes())
    known = puzzle.plans.get(key)
    if known is None:
        known = puzzle.plans[key] = _ended(puzzle, state) if few else _planned(puzzle, state, depth)
    return known


def _planned(puzzle: Puzzle, state: Whole, depth: int) -> float:
    check = best_check(puzzle, state, depth=depth)
    return 0.0 if check == NONE else cost_after(puzzle, state, check=check, depth=depth)


def _ended(puzzle: Puzzle, state: Whole) -> float:
    if is_solved(puzzle, state):
        return 0.0
    outcomes = puzzle.outcomes[state]
    open_ones = np.flatnonzero((outcomes != outcomes[0]).any(axis=0))
    last = ending(
        outcomes[:, open_ones].T.tolist(),
        puzzle.classes[state].tolist(),
        weights=puzzle.weights[state].tolist(),
        seconds=puzzle.seconds[open_ones].tolist(),
    )
    return least_seconds(last, (1 << state.size) - 1)


def cost_after(
    puzzle: Puzzle, state: Whole, *, check: int, depth: int, most: float = math.inf
) -> float:
    """The weighted seconds of a check, and of the plan of this depth from there.

    Where it comes to `most` the rest is not added.
    """
    cost = float(puzzle.weights[state].sum() * puzzle.seconds[check])
    for after in splits(puzzle, state, check):
        if cost >= most:
            break
        cost += plan_cost(puzzle, after, depth)
    return cost


def expected_seconds(puzzle: Puzzle, state: Whole) -> float:
    """Expected seconds from a state, by information per second; of the likeliest where many are."""
    if state.size > MOST_WEIGHED:
        likeliest = np.argsort(-puzzle.weights[state], kind="stable")[:MOST_WEIGHED]
        state = state[np.sort(likeliest)]
    total = float(puzzle.weights[state].sum())
    return plan_cost(puzzle, state, 0) / total if total else 0.0
