"""Units to outlets: the best plan, from a model in which nothing is said twice.

Outlets that are alike are not told apart while solving: a unit by itself goes to a kind of outlet,
of which there are so many. A chain (several units on one outlet) is told by its first unit. So no
plan can be written in two ways, and none has to be refused twice; that is what makes proofs quick.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import groupby

from thruline.plan.solver import Problem, Solved, solve_whole
from thruline.rig.cable import joined

SHARE = 80
"""Percent of a rating that should be used, as the trade has it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """A unit that wants power: the voltages it bears, its current at its highest, its plug.

    `may_share` is for units that put no noise on a shared return. `now` is the kind of outlet that
    feeds it, by its number; `zone` is where it stands, for a lead does not reach everywhere.
    """

    id: str
    millivolts: int
    most_millivolts: int
    ac: bool = False
    polarity: str | None = None
    running: int
    starting: int
    may_share: bool = False
    connector: str = "barrel-2.1"
    now: int | None = None
    zone: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """Outlets of one supply that are alike, and how many there are.

    An outlet whose voltage a switch chooses is of several kinds, one for each position, which share
    a `bank`; `switch` is then that position, and `is_set` whether it stands there now.
    """

    supply: str
    millivolts: int
    ac: bool = False
    polarity: str | None = None
    milliamps: int
    isolated: bool = True
    connector: str = "barrel-2.1"
    zone: int = 0
    count: int = 1
    bank: int | None = None
    switch: str | None = None
    is_set: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class PowerCosts:
    """What is worth how much."""

    unplaced: int = 100_000
    """A unit without an outlet; its milliamps are added, so that the largest are served first."""
    supply: int = 200
    """A supply that is used at all."""
    chained: int = 50
    """Each unit that shares an outlet with others."""
    shared_return: int = 30
    """Each unit on an outlet that shares its return with other outlets."""
    over: int = 30
    """An outlet or a supply of which more than 80 % is used."""
    moved: int = 20
    """A unit that is plugged into another kind of outlet than now."""
    switched: int = 15
    """A switch to turn: it can be turned back by accident, so an outlet that is fixed is better."""
    reversing: int = 10
    """A lead that swaps plus and minus."""
    other_plug: int = 5
    """A lead with two different plugs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Units on one outlet of a kind, by its number."""

    kind: int
    units: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PowerPlan:
    """Who is fed from where. No plan has a cost below `bound`."""

    places: tuple[Place, ...]
    unplaced: tuple[str, ...]
    cost: int
    bound: int

    @property
    def is_best(self) -> bool:
        """Whether it is proved that nothing is better."""
        return self.bound >= self.cost


def plan_power(
    loads: Sequence[Load],
    kinds: Sequence[Kind],
    *,
    watts: Mapping[str, int | None],
    costs: PowerCosts | None = None,
    chains: bool = True,
    seconds: float | None = 30,
) -> PowerPlan:
    """The best plan; who cannot be fed is left out. `watts` are milliwatts of whole supplies.

    After `seconds` the best plan so far is given, with the bound that is proved.
    """
    model = _Model(loads, kinds, costs or PowerCosts(), chains)
    for load in range(len(loads)):
        model.place(load)
    for supply in watts:
        model.used[supply] = model.problem.variable(model.costs.supply)
    model.limit_outlets()
    model.count_chains()
    model.keep_returns_quiet()
    for supply, has in watts.items():
        model.limit_supply(supply, has)
    found = _solved(model, seconds)
    if found is None:  # out of time before anything was found: nobody is placed, and that is a plan
        return PowerPlan(places=(), unplaced=tuple(one.id for one in loads), cost=0, bound=-1)
    values = [round(value) for value in found.values]
    return PowerPlan(
        places=tuple(model.places(values)),
        unplaced=tuple(one.id for at, one in enumerate(loads) if values[model.left_out[at]]),
        cost=round(found.cost),
        bound=round(found.bound) if found.bound > found.cost - 1 / 2 else int(found.bound),
    )


def _solved(model: "_Model", seconds: float | None) -> Solved | None:
    """The best answer that leaves out only whom nothing suits; or else the best of all.

    The first is quickly found, and no other can be better unless it costs as much as one more unit
    left out.
    """
    forced = [at for at in model.left_out if not any(whose == at for whose, _ in model.on)]
    served = [one for at, one in model.left_out.items() if at not in forced]
    half = None if seconds is None else seconds / 2
    found = solve_whole(model.problem, off=served, seconds=half, is_tight=True)
    costs = model.problem.costs
    rest = sum(costs[model.left_out[at]] for at in forced)
    if found is not None and found.cost - rest <= min((costs[one] for one in served), default=0):
        return found
    return solve_whole(model.problem, seconds=half, is_tight=True)


def suits(load: Load, kind: Kind) -> bool:
    """Whether a unit can be fed from an outlet of this kind, over whatever lead."""
    return (
        load.ac == kind.ac
        and load.zone == kind.zone
        and bool(joined((kind.connector, load.connector), "straight"))
        and load.millivolts <= kind.millivolts <= load.most_millivolts
        and max(load.running, load.starting) <= kind.milliamps
        and (kind.isolated or not is_reversed(load, kind))
    )


def is_reversed(load: Load, kind: Kind) -> bool:
    """Whether it takes a lead that swaps plus and minus.

    Never beside others: through the shared return that would short the supply.
    """
    return not load.ac and None not in (load.polarity, kind.polarity) and (
        load.polarity != kind.polarity
    )  # fmt: skip


def lead_cost(load: Load, number: int, kind: Kind, *, costs: PowerCosts) -> int:
    """What it costs to feed a unit from a kind of outlet, leaving sharing an outlet aside."""
    cost = costs.moved if load.now not in (None, number) else 0
    cost += 0 if kind.is_set else costs.switched
    cost += costs.reversing if is_reversed(load, kind) else 0
    cost += costs.other_plug if load.connector != kind.connector else 0
    return cost + (0 if kind.isolated else costs.shared_return)


@dataclass(slots=True)
class _Model:
    """The problem as it is filled.

    `alone` are units by themselves on a kind of outlet; `heads` the first units of chains, `tails`
    the further ones with the first; `on` holds all of these by unit and kind of outlet. `used` are
    the supplies: what is on one counts against it as far as it is used, also in real numbers.
    """

    loads: Sequence[Load]
    kinds: Sequence[Kind]
    costs: PowerCosts
    chains: bool
    problem: Problem = field(default_factory=Problem)
    alone: dict[tuple[int, int], int] = field(default_factory=dict)
    heads: dict[tuple[int, int], int] = field(default_factory=dict)
    tails: dict[tuple[int, int, int], int] = field(default_factory=dict)
    left_out: dict[int, int] = field(default_factory=dict)
    on: dict[tuple[int, int], list[int]] = field(default_factory=dict)
    used: dict[str, int] = field(default_factory=dict)

    @property
    def starts_highest(self) -> bool:
        """Whether no unit draws more running than at its start, so that one row says it all."""
        return all(one.running <= one.starting for one in self.loads)

    def place(self, at: int) -> None:
        """One unit: by itself, in a chain, or left out."""
        load = self.loads[at]
        most = max(load.running, load.starting)
        self.left_out[at] = self.problem.variable(self.costs.unplaced + most)
        for number, kind in enumerate(self.kinds):
            if not suits(load, kind):
                continue
            cost = lead_cost(load, number, kind, costs=self.costs)
            over = self.costs.over if most * 100 > kind.milliamps * SHARE else 0
            self.alone[at, number] = self.may(at, number, cost=cost + over)
            if self.chains and load.may_share and not is_reversed(load, kind):
                cost += self.costs.chained
                self.heads[at, number] = self.may(at, number, cost=cost)
                for head, other in list(self.heads):
                    both = self.loads[head].starting + load.starting
                    if other == number and head < at and both <= kind.milliamps:
                        self.tails[head, at, number] = self.may(at, number, cost=cost)
        self.problem.row([(one, 1) for one in self.ways(at)], low=1, high=1)

    def ways(self, at: int) -> Iterator[int]:
        """Every variable that places a unit or leaves it out."""
        yield self.left_out[at]
        yield from self.placing(at, range(len(self.kinds)))

    def placing(self, at: int, kinds: Sequence[int]) -> Iterator[int]:
        """The variables that place a unit on one of these kinds of outlet."""
        for kind in kinds:
            yield from self.on.get((at, kind), ())

    def may(self, at: int, kind: int, *, cost: int) -> int:
        """One more variable that places a unit on a kind of outlet."""
        number = self.problem.variable(cost)
        self.on.setdefault((at, kind), []).append(number)
        return number

    def bank(self, number: int) -> tuple[bool, int]:
        """What names the outlets of a kind: a bank, where they are of other kinds as well."""
        bank = self.kinds[number].bank
        return (False, number) if bank is None else (True, bank)

    def limit_outlets(self) -> None:
        """No more outlets than there are, and no chain that draws more than one gives."""
        used: dict[tuple[bool, int], list[int]] = {}
        for (_, number), one in (*self.alone.items(), *self.heads.items()):
            used.setdefault(self.bank(number), []).append(one)
        for number, kind in enumerate(self.kinds):
            those = used.pop(self.bank(number), None)
            if those:
                terms = [(one, 1.0) for one in those]
                supply = self.used.get(kind.supply)
                if supply is None:
                    self.problem.row(terms, high=kind.count)
                else:
                    self.problem.row([*terms, (supply, -kind.count)], high=0)
        tails: dict[tuple[int, int], list[tuple[int, int]]] = {}
        for (head, at, number), one in self.tails.items():
            tails.setdefault((head, number), []).append((at, one))
        for (head, number), first in self.heads.items():
            mine = tails.get((head, number), [])
            rating = self.kinds[number].milliamps
            over = self.problem.variable(self.costs.over)
            draws = (_starting,) if self.starts_highest else (_running, _starting)
            for draw in draws:
                drawn = [(first, float(draw(self.loads[head])))]
                drawn += [(one, float(draw(self.loads[at]))) for at, one in mine]
                tight = rating * SHARE / 100
                self.problem.row([*drawn, (first, -tight), (over, tight - rating)], high=0)
            for _, one in mine:
                self.problem.row([(one, 1), (first, -1)], high=0)
            self.problem.row([(over, 1), (first, -1)], high=0)

    def count_chains(self) -> None:
        """How many chains there are, as a number to decide on: it settles much at once."""
        if self.heads:
            count = self.problem.variable(0, most=len(self.loads))
            chains = [(one, 1.0) for one in self.heads.values()]
            self.problem.row([*chains, (count, -1.0)], low=0, high=0)

    def keep_returns_quiet(self) -> None:
        """A noisy unit on a return that outlets share has it to itself."""
        for supply in {kind.supply for kind in self.kinds}:
            shared = [
                number
                for number, kind in enumerate(self.kinds)
                if kind.supply == supply and not kind.isolated
            ]
            on_it = {at: list(self.placing(at, shared)) for at in range(len(self.loads))}
            count = sum(bool(ways) for ways in on_it.values())
            for at, ways in on_it.items():
                others = [one for who, those in on_it.items() if who != at for one in those]
                if ways and others and not self.loads[at].may_share:
                    noisy = [(one, float(count)) for one in ways]
                    self.problem.row([*noisy, *((one, 1.0) for one in others)], high=count)

    def limit_supply(self, supply: str, has: int | None) -> None:
        """A supply is used by whoever hangs on it, and gives no more than it has in all."""
        mine = [number for number, kind in enumerate(self.kinds) if kind.supply == supply]
        used = self.used[supply]
        drawn: list[tuple[int, float]] = []
        for at, load in enumerate(self.loads):
            ways = list(self.placing(at, mine))
            if ways:
                self.problem.row([*((one, 1.0) for one in ways), (used, -1.0)], high=0)
            for number in mine:
                watts = self.kinds[number].millivolts * load.running / 1000
                drawn += [(one, watts) for one in self.placing(at, [number])]
        if has is not None and drawn:
            over = self.problem.variable(self.costs.over)
            tight = has * SHARE / 100
            self.problem.row([*drawn, (over, tight - has), (used, -tight)], high=0)
            self.problem.row([(over, 1.0), (used, -1.0)], high=0)

    def places(self, values: Sequence[int]) -> Iterator[Place]:
        """What was decided, outlet by outlet."""
        names = [one.id for one in self.loads]
        for (at, kind), one in self.alone.items():
            if values[one]:
                yield Place(kind=kind, units=(names[at],))
        for (head, kind), one in self.heads.items():
            if values[one]:
                rest = [
                    names[at]
                    for (whose, at, where), tail in self.tails.items()
                    if (whose, where) == (head, kind) and values[tail]
                ]
                yield Place(kind=kind, units=(names[head], *rest))


def _running(load: Load) -> int:
    return load.running


def _starting(load: Load) -> int:
    return load.starting


def kinds_of(outlets: Sequence[Kind]) -> tuple[tuple[Kind, ...], tuple[int, ...]]:
    """Single outlets gathered into kinds; and for each outlet the number of its kind."""
    known = list(dict.fromkeys(outlets))
    number = {kind: at for at, kind in enumerate(known)}
    places = tuple(number[one] for one in outlets)
    counts = {at: len(list(those)) for at, those in groupby(sorted(places))}
    return tuple(replace(kind, count=counts[at]) for at, kind in enumerate(known)), places
