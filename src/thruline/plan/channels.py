"""A channel for each unit: the best assignment, and why nothing is better.

A unit is on a line (an output whose messages the others do not carry) and takes some channels in
a row. A unit that cannot be kept from hearing every channel (omni) is the hard part: whoever shares
its line and its kinds of message changes it too, unless a filter is put before it. So each way to
place the omni units is a case; within a case the rest is an assignment, which a linear program
solves, nearly always in whole numbers. Cases are taken in the order of that bound, and what is left
once the bound is above the best plan cannot hold a better one.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product
from typing import NamedTuple

from thruline.plan.solver import Problem, Solved, solve_each, solve_whole, whole_above

CHANNELS = 16
MOST_CASES = 300
"""Ways to place omni units that are taken one by one; more of them are one problem."""
LONGEST_SECONDS = 20
"""How long that one problem is worked at."""


@dataclass(frozen=True, slots=True, order=True)
class Slot:
    """A line, and the first channel that a unit takes on it."""

    line: int
    channel: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ChannelWish:
    """A unit that wants a channel.

    `now` is where it is set, `ideal` where it would sit in the order of the sound. `kinds` are the
    kinds of message it acts on, which matter beside an `omni` unit. `is_settled` is False for a
    unit that still has what it left the factory with. `hears` are lines that it hears whichever of
    them its own messages come over; a unit that moves from line to line leaves it empty.
    `in_sound` tells that it is on the described way of the sound; the order of the others is theirs
    in the document.
    """

    id: str
    width: int = 1
    channels: tuple[int, ...] = tuple(range(1, CHANNELS + 1))
    lines: tuple[int, ...] = (0,)
    now: Slot | None = None
    ideal: Slot | None = None
    in_sound: bool = False
    omni: bool = False
    kinds: frozenset[str] = frozenset()
    is_settled: bool = True
    hears: frozenset[int] = frozenset()

    def slots(self) -> Iterator[Slot]:
        """Everywhere it can be."""
        for line in self.lines:
            for channel in self.channels:
                if channel + self.width - 1 <= CHANNELS:
                    yield Slot(line, channel)

    def taken(self, slot: Slot) -> Iterator[Slot]:
        """The channels it takes when it is there."""
        for step in range(self.width):
            yield Slot(slot.line, slot.channel + step)


@dataclass(frozen=True, slots=True, kw_only=True)
class Costs:
    """What is worth how much; in fifths of a step of a channel number, the least thing there is."""

    filter: int = 500
    """A filter to buy, before a unit that hears everything."""
    channel: int = 100
    """Setting a unit to another channel than it is set to."""
    factory: int = 30
    """The same for a unit that is as it left the factory: it has to be visited anyway."""
    line: int = 60
    """Moving a unit to another line."""
    order_line: int = 20
    """Being on another line than its neighbours in the sound."""
    channel_one: int = 9
    """Channel 1, on which a unit that loses its memory wakes up."""
    step: int = 2
    """Each channel away from its place in the order of the sound."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Where everybody is; `filtered` are omni units that want a filter before them.

    No plan costs less than `bound`: of `cases` ways to place the omni units `solved` were solved,
    and the bound of each other is no lower than the cost. It is `cases` 0 where there were too many
    to take one by one.
    """

    slots: Mapping[str, Slot]
    filtered: frozenset[str]
    cost: int
    bound: int
    cases: int
    solved: int

    @property
    def is_best(self) -> bool:
        """Whether it is proved that nothing is better."""
        return self.bound >= self.cost


def plan_channels(wishes: Sequence[ChannelWish], costs: Costs | None = None) -> Plan | None:
    """The best plan; None when there is none at all (see `clash`)."""
    costs = costs or Costs()
    table = _table(wishes, costs)
    if math.prod(len(one.lines) + 1 for one in wishes if one.omni) > MOST_CASES:
        return _all_at_once(table, costs)
    cases = sorted(_cases(table, costs), key=lambda one: one.bound)
    best: Plan | None = None
    for looked_at, case in enumerate(cases):
        if best is not None and case.bound >= best.cost:
            break
        found = case.relaxed
        if not found.is_whole:
            found = solve_whole(table.problem, off=case.barred) or found
        if found.is_whole:
            plan = _read(table, case, found, costs=costs)
            best = plan if best is None or plan.cost < best.cost else best
            best = replace(best, cases=len(cases), solved=looked_at + 1)
    return best


def cost_of(wish: ChannelWish, slot: Slot, costs: Costs) -> int:
    """What it costs to have a unit there, leaving filters aside."""
    cost = costs.channel_one if slot.channel == 1 else 0
    if wish.now is not None:
        if slot.channel != wish.now.channel:
            cost += costs.channel if wish.is_settled else costs.factory
        if slot.line != wish.now.line:
            cost += costs.line
    if wish.ideal is not None:
        cost += costs.step * abs(slot.channel - wish.ideal.channel)
        if slot.line != wish.ideal.line:
            cost += costs.order_line
    return cost


class _Table(NamedTuple):
    """All slots of all units as one problem, each slot with the number of its variable."""

    wishes: Sequence[ChannelWish]
    problem: Problem
    numbers: Mapping[tuple[int, Slot], int]


class _Case(NamedTuple):
    """One way to place the omni units: slots that nobody can take then, and the rest relaxed.

    `filtered` are omni units with a filter before them, by their place.
    """

    filtered: tuple[int, ...]
    barred: tuple[int, ...]
    relaxed: Solved
    bound: int


def _table(wishes: Sequence[ChannelWish], costs: Costs) -> _Table:
    problem = Problem()
    numbers: dict[tuple[int, Slot], int] = {}
    for place, wish in enumerate(wishes):
        mine = []
        for slot in wish.slots():
            number = problem.variable(cost_of(wish, slot, costs))
            numbers[place, slot] = number
            mine.append(number)
        problem.row([(number, 1) for number in mine], low=1, high=1)
    keep_apart(problem, wishes, numbers)
    return _Table(wishes, problem, numbers)


def keep_apart(
    problem: Problem, wishes: Sequence[ChannelWish], numbers: Mapping[tuple[int, Slot], int]
) -> None:
    """Rows that let no unit hear, on a channel of its own, what is sent to another.

    `numbers` are the variables of the units, by their place in `wishes`, on their slots.
    """
    covers: dict[Slot, list[tuple[int, int]]] = {}
    for (place, slot), number in numbers.items():
        for taken in wishes[place].taken(slot):
            covers.setdefault(taken, []).append((place, number))
    for those in covers.values():
        problem.row([(number, 1) for _, number in those], high=1)
    for place, wish in enumerate(wishes):
        for line, channel in product(sorted(wish.hears), range(1, CHANNELS + 1)):
            others = [one for who, one in covers.get(Slot(line, channel), ()) if who != place]
            mine = [
                numbers[place, slot]
                for slot in wish.slots()
                if channel in {taken.channel for taken in wish.taken(slot)}
                and (place, slot) in numbers
            ]
            if others and mine:
                problem.row([(one, 1) for one in (*others, *mine)], high=1)


def _cases(table: _Table, costs: Costs) -> Iterator[_Case]:
    """Every way to place the omni units in which there is room for everybody in real numbers."""
    omni = [place for place, wish in enumerate(table.wishes) if wish.omni]
    ways = list(product(*((*table.wishes[place].lines, None) for place in omni)))
    placed = [tuple(zip(omni, lines, strict=True)) for lines in ways]
    barred = [tuple(sorted(_barred(table, those))) for those in placed]
    relaxed = solve_each(table.problem, barred)
    for those, slots, found in zip(placed, barred, relaxed, strict=True):
        if found is not None:
            filtered = tuple(place for place, line in those if line is None)
            bound = whole_above(found.cost) + costs.filter * len(filtered)
            yield _Case(filtered, slots, found, bound)


def _barred(table: _Table, placed: Sequence[tuple[int, int | None]]) -> Iterator[int]:
    """Slots beside an omni unit without a filter, and those of it on another line."""
    for omni, line in placed:
        if line is None:
            continue
        kinds = table.wishes[omni].kinds
        heard = {line, *table.wishes[omni].hears}
        for (place, slot), number in table.numbers.items():
            if place == omni:
                if slot.line != line:
                    yield number
            elif slot.line in heard and table.wishes[place].kinds & kinds:
                yield number


def _read(table: _Table, case: _Case, found: Solved, *, costs: Costs) -> Plan:
    slots = {
        table.wishes[place].id: slot
        for (place, slot), number in table.numbers.items()
        if round(found.values[number])
    }
    cost = round(found.cost) + costs.filter * len(case.filtered)
    filtered = frozenset(table.wishes[place].id for place in case.filtered)
    return Plan(slots=slots, filtered=filtered, cost=cost, bound=cost, cases=1, solved=1)


def _all_at_once(table: _Table, costs: Costs) -> Plan | None:
    """The same as one problem, where every filter is a variable: for very many omni units."""
    problem = replace(
        table.problem,
        costs=[*table.problem.costs],
        most=[*table.problem.most],
        rows=[*table.problem.rows],
        low=[*table.problem.low],
        high=[*table.problem.high],
    )
    filters = {}
    for omni, wish in enumerate(table.wishes):
        if wish.omni:
            filters[omni] = problem.variable(costs.filter)
            for mine, beside in _beside(table, omni):
                terms = [(number, 1.0) for number in (*mine, *beside)]
                problem.row([*terms, (filters[omni], -1.0)], high=1)
    found = solve_whole(problem, seconds=LONGEST_SECONDS)
    if found is None:
        return None
    filtered = tuple(omni for omni, number in filters.items() if round(found.values[number]))
    rest = round(found.cost) - costs.filter * len(filtered)
    case = _Case(filtered, (), found, whole_above(found.bound))
    plan = _read(table, case, replace(found, cost=rest), costs=costs)
    return replace(plan, bound=min(case.bound, plan.cost), cases=0, solved=0)


def _beside(table: _Table, omni: int) -> Iterator[tuple[list[int], list[int]]]:
    """For each line and each unit that an omni unit hears there: the slots of both on it."""
    one = table.wishes[omni]
    everywhere = [table.numbers[omni, slot] for slot in one.slots()]
    for line, (place, other) in product(one.lines, enumerate(table.wishes)):
        if place != omni and one.kinds & other.kinds:
            mine = everywhere if line in one.hears else _slots_on(table, omni, line)
            yield mine, _slots_on(table, place, line)


def _slots_on(table: _Table, place: int, line: int) -> list[int]:
    return [table.numbers[place, slot] for slot in table.wishes[place].slots() if slot.line == line]
