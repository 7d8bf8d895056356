"""The best plan for the last few suspects, by trying every check: exact, and quick while few."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

ALIKE = 1e-9
"""Shares that differ by less are the same, but for rounding."""
Parts: TypeAlias = tuple[int, ...]
"""What a check parts suspects into: a set of bits for each of its answers."""


@dataclass(slots=True, eq=False)
class Ending:
    """A few suspects, a bit each, with what parts them.

    `ways` are the different ways to part them, each with the seconds of the quickest check that
    does it, the quickest first. `mends` are the sets of suspects that one mend removes.
    """

    weights: Sequence[float]
    mends: Parts
    ways: tuple[tuple[float, Parts], ...]
    known: dict[int, float] = field(default_factory=dict)


def ending(
    outcomes: Sequence[Sequence[int]],
    classes: Sequence[int],
    *,
    weights: Sequence[float],
    seconds: Sequence[float],
) -> Ending:
    """The ending for suspects by row; `outcomes` has a row for each check, with theirs."""
    quickest: dict[Parts, float] = {}
    for column, cost in zip(outcomes, seconds, strict=True):
        parts = _parts(column)
        if len(parts) > 1 and cost < quickest.get(parts, float("inf")):
            quickest[parts] = cost
    ways = tuple(sorted((cost, parts) for parts, cost in quickest.items()))
    return Ending(weights, _parts(classes), ways)


def _parts(numbers: Sequence[int]) -> Parts:
    found: dict[int, int] = {}
    for place, number in enumerate(numbers):
        found[number] = found.get(number, 0) | 1 << place
    return tuple(sorted(found.values()))


def least_seconds(last: Ending, left: int) -> float:
    """Weighted seconds of the best plan for the suspects that are `left`."""
    known = last.known.get(left)
    if known is not None:
        return known
    if any(left & mend == left for mend in last.mends):
        last.known[left] = 0.0
        return 0.0
    weight = _weight(last, left)
    mends = [part for mend in last.mends if (part := left & mend)]
    surely = any(part.bit_count() == 1 for part in mends)
    best = float("inf")
    for cost, parts in last.ways:
        total = weight * cost
        if total >= best:
            break  # those that follow take longer still
        found = [left & part for part in parts if left & part]
        if len(found) > 1 and (surely or _tells(last, left, found, mends=mends)):
            for one in found:
                total += least_seconds(last, one)
                if total >= best:
                    break
            best = min(best, total)
    last.known[left] = 0.0 if best == float("inf") else best
    return last.known[left]


def _weight(last: Ending, some: int) -> float:
    return sum(one for place, one in enumerate(last.weights) if some >> place & 1)


def _tells(last: Ending, left: int, parts: Sequence[int], *, mends: Sequence[int]) -> bool:
    """Whether parting suspects says anything about the mend: not where all parts have each alike.

    Where a mend is of one suspect alone it always does.
    """
    whole = _weight(last, left)
    return any(
        abs(_weight(last, part & mend) * whole - _weight(last, part) * _weight(last, mend))
        > ALIKE * whole * whole
        for part in parts
        for mend in mends
    )
