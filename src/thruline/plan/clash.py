"""Why there is no channel plan: the smallest set of units that get into each other's way."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from thruline.plan.channels import ChannelWish, Slot, keep_apart
from thruline.plan.solver import Problem, solve_whole

ROUNDS = 100
"""Sets that are tried at most; a smallest one is hardly ever more than a dozen away."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """Units that cannot all have channels; without any one of them the others can.

    `slots` are all the channels that they could take between them. `is_smallest` says whether it is
    proved that no fewer units clash.
    """

    units: tuple[str, ...]
    slots: tuple[Slot, ...]
    is_smallest: bool


def clash(wishes: Sequence[ChannelWish]) -> Clash | None:
    """A smallest set of units that cannot all be placed; None when all can.

    A first set is found by counting units against the channels that they can take. Where each takes
    one channel, some set has too few channels if and only if there is no plan (Hall's theorem), and
    the least such set is found. Units of several channels can also be in each other's way by where
    they begin, and units that hear several lines by what they hear: then the set is made smaller
    until it is proved that it cannot be.
    """
    if _most_placed(wishes, must=wishes) is not None:
        return None
    least, proved = _without_idle(_short_of_channels(wishes) or wishes), True
    if any(wish.width > 1 or wish.hears for wish in wishes):
        least, proved = _smallest(wishes, least)
    slots = {taken for one in least for slot in one.slots() for taken in one.taken(slot)}
    return Clash(
        units=tuple(one.id for one in least), slots=tuple(sorted(slots)), is_smallest=proved
    )


def _smallest(
    wishes: Sequence[ChannelWish], known: list[ChannelWish]
) -> tuple[list[ChannelWish], bool]:
    """A set that clashes and is no larger than any other; and whether that is proved.

    Of a set that can be placed, every set that clashes needs a unit from outside. So the smallest
    set with a unit from outside of all that are known is no larger than the smallest that clashes:
    it clashes itself, and is the answer, or it is made as large as can be and is one more of them
    (an implicit hitting set). Units that want the same are picked in one order, so that a set does
    not come again with others in their places.
    """
    alike: dict[object, list[ChannelWish]] = {}
    for wish in wishes:
        alike.setdefault((wish.width, wish.channels, wish.lines, wish.hears), []).append(wish)
    problem = Problem()
    number = {wish.id: problem.variable(1) for those in alike.values() for wish in those}
    for those in alike.values():
        for before, wish in pairwise(those):
            problem.row([(number[before.id], 1), (number[wish.id], -1)], low=0)
    for _ in range(ROUNDS):
        found = solve_whole(problem)
        if found is None:  # never: the known set is an answer
            break
        chosen = [wish for wish in wishes if round(found.values[number[wish.id]])]
        if len(chosen) >= len(known):
            return known, True
        placed = _most_placed(wishes, must=chosen)
        if placed is None:
            return chosen, True
        firsts = (_first_outside(those, placed) for those in alike.values())
        problem.row([(number[one.id], 1) for one in firsts if one is not None], low=1)
    return known, False


def _first_outside(alike: Sequence[ChannelWish], placed: frozenset[str]) -> ChannelWish | None:
    """Of units that want the same the first that is one too many; None when all are placed."""
    count = sum(one.id in placed for one in alike)
    return alike[count] if count < len(alike) else None


def _most_placed(
    wishes: Sequence[ChannelWish], *, must: Iterable[ChannelWish]
) -> frozenset[str] | None:
    """As many units as can be placed together with some, whatever it costs; None without room.

    A filter keeps an omni unit out of the way.
    """
    problem = Problem()
    needed = {one.id for one in must}
    numbers: dict[tuple[int, Slot], int] = {}
    ways: dict[str, list[int]] = {}
    for place, wish in enumerate(wishes):
        mine = ways[wish.id] = []
        for slot in wish.slots():
            numbers[place, slot] = problem.variable(-1)
            mine.append(numbers[place, slot])
        if wish.id in needed and not mine:
            return None
        low = 1 if wish.id in needed else 0
        problem.row([(number, 1) for number in mine], low=low, high=1)
    keep_apart(problem, wishes, numbers)
    found = solve_whole(problem)
    if found is None:
        return None
    return frozenset(
        name for name, mine in ways.items() if any(round(found.values[one]) for one in mine)
    )


def _short_of_channels(wishes: Sequence[ChannelWish]) -> list[ChannelWish]:
    """The fewest units that together need more channels than they can reach; none if there are."""
    problem = Problem()
    picked = [problem.variable(1) for _ in wishes]
    reached: dict[Slot, int] = {}
    for number, wish in zip(picked, wishes, strict=True):
        for slot in {taken for one in wish.slots() for taken in wish.taken(one)}:
            channel = reached.setdefault(slot, -1)
            if channel < 0:
                channel = reached[slot] = problem.variable(0)
            problem.row([(channel, 1), (number, -1)], low=0)
    needed = [(number, float(one.width)) for number, one in zip(picked, wishes, strict=True)]
    problem.row([*needed, *((channel, -1.0) for channel in reached.values())], low=1)
    found = solve_whole(problem)
    if found is None:
        return []
    return [one for number, one in zip(picked, wishes, strict=True) if round(found.values[number])]


def _without_idle(wishes: Sequence[ChannelWish]) -> list[ChannelWish]:
    """Units left out, one by one, as long as the rest still cannot all be placed."""
    kept = list(wishes)
    for one in wishes:
        rest = [other for other in kept if other is not one]
        if rest and _most_placed(rest, must=rest) is None:
            kept = rest
    return kept
