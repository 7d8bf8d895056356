"""The check that tells most about the mend for its time, observers’ errors counted in."""

from collections import Counter
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from thruline.find.belief import Belief
from thruline.find.checks import Check
from thruline.find.field import NOTHING, OTHER, Field
from thruline.find.kinds import Action
from thruline.find.likely import ACTS, Floats, noisy
from thruline.find.puzzle import NONE, Puzzle, best_check, counted, expected_seconds, made
from thruline.find.search import Did, Search
from thruline.find.trials import Trial

Rows: TypeAlias = NDArray[np.int64]
LEAST = 2e-4
"""Rows less likely than that do not decide what is asked next."""
LEAST_BITS = 0.02
"""A check that tells less than that is not asked."""
NEAR = 0.6
"""A planned check must tell at least this share of what the most telling one does, per second."""
STALE = 0.35
"""What a question is worth each time it was asked before; the same eyes make the same mistake."""
MOST_COLUMNS = 16
"""Answers up to which checks are weighed all in one go."""


@dataclass(frozen=True, slots=True)
class Plan:
    """What is left to be told apart, with the checks that were not asked yet, by place."""

    puzzle: Puzzle
    places: Rows


def open_checks(field: Field, search: Search) -> Rows:
    """The checks that may be asked.

    Not those that cannot be done, that nobody is sure of, or that a mend has settled.
    """
    left_out = {one.on for one in search.steps if one.did in (Did.CANNOT, Did.NOT_SURE)}
    left_out |= settled(field, search)
    places = [place for place, one in enumerate(field.checks) if one.id not in left_out]
    return np.array(places, np.int64)


def settled(field: Field, search: Search) -> set[str]:
    """Looks at a thing that found what was mended since, and swaps of leads that were replaced."""
    found: set[str] = set()
    seen: dict[str, str] = {}
    for step in search.steps:
        if step.did is Did.ANSWERED:
            seen[step.on] = step.answer
        elif step.did is Did.MENDED:
            found |= {on for on, answer in seen.items() if _showed(field, on, answer, step.on)}
            found |= {one.id for one in field.checks if _replaces(one, step.on)}
    return found


def _showed(field: Field, on: str, answer: str, mend: str) -> bool:
    """Whether a look showed something that this mend is for."""
    check, place = field.check(on), field.place_of[on]
    if not check.look or answer == check.good:
        return False
    rows = [row for row, key in enumerate(field.mends) if key == mend]
    return any(field.answers[place][field.outcomes[row, place]] == answer for row in rows)


def _replaces(check: Check, mend: str) -> bool:
    """Whether a check is nothing but this mend, made for a moment."""
    return check.trial is Trial.SWAP and mend == f"{Action.REPLACE_CABLE}@{check.scene.on}"


def bits(belief: Belief, places: Rows) -> Floats:
    """Bits about the mend that each of these checks tells."""
    field = belief.field
    rows, weights, mends = _live(belief)
    told = np.zeros(places.size)
    widths = np.array([len(field.answers[place]) for place in places.tolist()], np.int64)
    narrow = np.flatnonzero(widths <= MOST_COLUMNS)
    for width in np.unique(widths[narrow]).tolist():
        which = np.flatnonzero(widths == width)
        told[which] = _bits(field, places[which], rows=rows, weights=weights, mends=mends)
    for one in np.flatnonzero(widths > MOST_COLUMNS).tolist():
        told[[one]] = _bits(field, places[[one]], rows=rows, weights=weights, mends=mends)
    times = Counter(step.on for step in belief.answered)
    asked = np.array([times[field.checks[place].id] for place in places.tolist()], np.int64)
    return np.asarray(told * STALE**asked)


def _live(belief: Belief) -> tuple[Rows, Floats, Rows]:
    """Rows that matter with their weights and the number of their mend.

    A pair counts as its likelier half.
    """
    weights = belief.weights.copy()
    for (one, other), weight in zip(belief.pairs, belief.pair_weights, strict=True):
        weights[one if weights[one] >= weights[other] else other] += weight
    weights[OTHER] = 0.0  # nobody knows what it would show, so nothing can be learnt about it
    rows = np.flatnonzero(weights > LEAST)
    names = [belief.field.mends[row] for row in rows.tolist()]
    numbers = {name: number for number, name in enumerate(dict.fromkeys(names))}
    shares = weights[rows] / weights[rows].sum()
    return rows, shares, np.array([numbers[name] for name in names], np.int64)


def _bits(field: Field, places: Rows, *, rows: Rows, weights: Floats, mends: Rows) -> Floats:
    """Bits of checks with equally many answers."""
    width = len(field.answers[int(places[0])])
    count = int(mends.max()) + 1
    shape = (count, places.size, width)
    codes = field.outcomes[np.ix_(rows, places)]
    good = field.outcomes[NOTHING, places]
    presses = np.array([bool(field.checks[place].number) for place in places.tolist()], np.bool_)
    acts = np.where(field.comes_and_goes[rows][:, None] & presses[None, :], ACTS, 1.0)
    base = mends[:, None] * (places.size * width) + np.arange(places.size)[None, :] * width
    size = count * places.size * width
    cells = counted(base + codes, weights[:, None] * acts, size)
    rest = weights[:, None] * (1 - acts)
    if rest.any():
        cells += counted(base + good, rest, size)
    table = cells.reshape(shape)
    sure = np.array([field.checks[place].sure for place in places.tolist()])
    return _mutual(noisy(table, sure[:, None]))


def _mutual(table: Floats) -> Floats:
    """Bits between the first axis and the last, for each of the second."""
    both = _entropy(table).sum(axis=(0, 2))
    ones = _entropy(table.sum(axis=2)).sum(axis=0)
    others = _entropy(table.sum(axis=0)).sum(axis=1)
    return np.asarray(np.maximum(ones + others - both, 0.0))


def _entropy(shares: Floats) -> Floats:
    logs = np.log2(shares, out=np.zeros_like(shares), where=shares > 0)
    return -shares * logs


def telling(belief: Belief, search: Search, most: int) -> list[Check]:
    """The checks that tell most for their time, the best first; `most` of them at most."""
    field, places = belief.field, open_checks(belief.field, search)
    if not places.size:
        return []
    told = bits(belief, places)
    order = np.argsort(-told / field.seconds[places], kind="stable")
    return [field.checks[int(places[one])] for one in order if told[one] >= LEAST_BITS][:most]


def next_check(belief: Belief, search: Search, plan: Plan | None = None) -> Check | None:
    """What to try next; None when nothing tells more. `plan` is that of the belief, if known."""
    field = belief.field
    places = open_checks(field, search)
    if not places.size:
        return None
    told = bits(belief, places)
    rate = told / field.seconds[places]
    if told.max() < LEAST_BITS:
        return None
    rate[told < LEAST_BITS] = 0.0
    best = int(rate.argmax())
    planned = first_of(plan or plan_for(belief, search))
    if planned is not None:
        again = int(np.flatnonzero(places == planned)[0])
        if rate[again] >= NEAR * rate[best]:
            best = again
    return field.checks[int(places[best])]


def plan_for(belief: Belief, search: Search) -> Plan:
    """A plan to the end that trusts every answer from here."""
    field = belief.field
    asked = {step.on for step in belief.answered}
    open_ones = open_checks(field, search).tolist()
    fresh = [place for place in open_ones if field.checks[place].id not in asked]
    places = np.array(fresh, np.int64)
    rows, weights, mends = _live(belief)
    puzzle = made(
        field.outcomes[np.ix_(rows, places)],
        mends.tolist(),
        weights=weights,
        seconds=field.seconds[places],
    )
    return Plan(puzzle, places)


def first_of(plan: Plan) -> int | None:
    """The check that a plan begins with, by place."""
    if not plan.places.size:
        return None
    check = best_check(plan.puzzle, plan.puzzle.all_rows)
    return None if check == NONE else int(plan.places[check])


def seconds_left(plan: Plan) -> float:
    """Seconds that checks are still expected to take, if every answer can be trusted."""
    return expected_seconds(plan.puzzle, plan.puzzle.all_rows) if plan.places.size else 0.0
