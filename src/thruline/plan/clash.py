"""Why there is no channel plan: the units that get into each other's way."""

from collections.abc import Sequence
from dataclasses import dataclass

from thruline.plan.channels import Seat, Sitter
from thruline.plan.solver import Problem, solve_whole


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """Units that cannot all have channels; without any one of them the others can.

    `seats` are all the channels that they could take between them. `is_smallest` says whether it is
    proved that no fewer units clash.
    """

    units: tuple[str, ...]
    seats: tuple[Seat, ...]
    is_smallest: bool


def clash(sitters: Sequence[Sitter]) -> Clash | None:
    """A smallest set of units that cannot all be placed; None when all can.

    First units are counted against the channels that they can take: where each takes one channel,
    some set has too few channels if and only if there is no plan (Hall's theorem), and the least
    such set is found. Units of several channels can also be in each other's way by where they
    begin; then units are left out one by one as long as the rest still clashes.
    """
    if _can_sit(sitters):
        return None
    short = _short_of_channels(sitters)
    least = _without_idle(short or sitters)
    counted = all(sitter.width == 1 for sitter in sitters)
    seats = {taken for one in least for seat in one.seats() for taken in one.taken(seat)}
    return Clash(
        units=tuple(one.id for one in least),
        seats=tuple(sorted(seats)),
        is_smallest=counted or len(least) <= _least_possible(sitters),
    )


def _least_possible(sitters: Sequence[Sitter]) -> int:
    """One unit clashes with itself only when it has no seat; else it takes two."""
    return 2 if all(any(True for _ in sitter.seats()) for sitter in sitters) else 1


def _can_sit(sitters: Sequence[Sitter]) -> bool:
    """Whether all have room, whatever it costs. A filter keeps an omni unit out of the way."""
    problem = Problem()
    covers: dict[Seat, list[int]] = {}
    for sitter in sitters:
        mine = []
        for seat in sitter.seats():
            number = problem.variable(0)
            mine.append(number)
            for taken in sitter.taken(seat):
                covers.setdefault(taken, []).append(number)
        if not mine:
            return False
        problem.row([(number, 1) for number in mine], low=1, high=1)
    for those in covers.values():
        problem.row([(number, 1) for number in those], high=1)
    return not sitters or solve_whole(problem) is not None


def _short_of_channels(sitters: Sequence[Sitter]) -> list[Sitter]:
    """The fewest units that together need more channels than they can reach; none if there are."""
    problem = Problem()
    picked = [problem.variable(1) for _ in sitters]
    reached: dict[Seat, int] = {}
    for number, sitter in zip(picked, sitters, strict=True):
        for seat in {taken for one in sitter.seats() for taken in sitter.taken(one)}:
            channel = reached.setdefault(seat, -1)
            if channel < 0:
                channel = reached[seat] = problem.variable(0)
            problem.row([(channel, 1), (number, -1)], low=0)
    needed = [(number, float(one.width)) for number, one in zip(picked, sitters, strict=True)]
    problem.row([*needed, *((channel, -1.0) for channel in reached.values())], low=1)
    found = solve_whole(problem)
    if found is None:
        return []
    return [one for number, one in zip(picked, sitters, strict=True) if round(found.values[number])]


def _without_idle(sitters: Sequence[Sitter]) -> list[Sitter]:
    """Units left out, one by one, as long as the rest still cannot all sit."""
    kept = list(sitters)
    for one in sitters:
        rest = [other for other in kept if other is not one]
        if not _can_sit(rest):
            kept = rest
    return kept
