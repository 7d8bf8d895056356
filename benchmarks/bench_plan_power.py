"""How good power plans are, and how fast.

    python benchmarks/bench_plan_power.py [--boards 50] [--first 0] [--units 12 20 28] [--quick]

Made boards: units of 9, 12 and 18 V, a few centre positive, one in three digital, on supplies with
strong and weak, isolated and shared outlets. Each is planned, and planned by a simple rule (the
hungriest first, each on the cheapest outlet that is free). Times are processor time (one thread).
Exit code 1 when a plan is not proved to be the best, or the rule beats it.
"""

import argparse
import random
import statistics
import sys
import time
from collections.abc import Sequence

from thruline.plan.power import (
    Kind,
    Load,
    PowerCosts,
    PowerPlan,
    is_reversed,
    lead_cost,
    plan_power,
    suits,
)

COSTS = PowerCosts()
NEGATIVE, POSITIVE = "centre-negative", "centre-positive"
SUPPLIES = {"a": 40_000, "b": 25_000, "c": None, "d": 12_000}


def made_board(seed: int, units: int) -> tuple[list[Load], list[Kind]]:
    """A board and its supplies, from a seed."""
    dice = random.Random(seed * 1000 + units)
    loads = [_load(dice, place) for place in range(units)]
    big = units // 4
    kinds = [
        Kind(supply="a", millivolts=9000, polarity=NEGATIVE, milliamps=500, count=big),
        Kind(supply="a", millivolts=9000, polarity=NEGATIVE, milliamps=100, count=big),
        Kind(supply="a", millivolts=12_000, polarity=NEGATIVE, milliamps=500, count=2),
        Kind(supply="b", millivolts=9000, polarity=NEGATIVE, milliamps=300, count=big),
        Kind(supply="b", millivolts=18_000, polarity=NEGATIVE, milliamps=200, count=2),
        Kind(
            supply="c", millivolts=9000, polarity=NEGATIVE, milliamps=400, isolated=False, count=3
        ),
        Kind(supply="d", millivolts=9000, polarity=NEGATIVE, milliamps=800, count=1),
        Kind(supply="d", millivolts=9000, ac=True, milliamps=500, count=1),
    ]
    return loads, kinds


def _load(dice: random.Random, place: int) -> Load:
    digital = dice.random() < 0.35
    volts = dice.choices([9000, 12_000, 18_000], weights=[85, 9, 6])[0]
    running = dice.randint(60, 320) if digital else dice.randint(4, 60)
    ac = dice.random() < 0.03
    return Load(
        id=f"unit-{place:02}",
        millivolts=volts,
        most_millivolts=18_000 if volts == 9000 and not digital and dice.random() < 0.4 else volts,
        ac=ac,
        polarity=None if ac else POSITIVE if dice.random() < 0.06 else NEGATIVE,
        running=running,
        starting=running * 3 // 2 if digital else running,
        may_share=not digital,
        connector="barrel-2.5" if dice.random() < 0.08 else "barrel-2.1",
    )


def by_rule(loads: Sequence[Load], kinds: Sequence[Kind]) -> int:
    """The cost of a plan by a simple rule; chains are made of what is left over at the end."""
    free = [kind.count for kind in kinds]
    cost, used, left = 0, set[str](), []
    watts = {name: has or 10**9 for name, has in SUPPLIES.items()}
    for one in sorted(loads, key=lambda each: -each.starting):
        fits = [
            number
            for number, kind in enumerate(kinds)
            if free[number] and kind.isolated and suits(one, kind)
            and watts[kind.supply] * 80 // 100 >= kind.millivolts * one.running // 1000
        ]  # fmt: skip
        if not fits:
            left.append(one)
            continue
        number = min(fits, key=lambda at: (_cost(one, at, kinds), kinds[at].milliamps))
        free[number] -= 1
        used.add(kinds[number].supply)
        watts[kinds[number].supply] -= kinds[number].millivolts * one.running // 800
        cost += _cost(one, number, kinds)
    return cost + _chained(left, kinds, used) + COSTS.supply * len(used)


def _chained(left: list[Load], kinds: Sequence[Kind], used: set[str]) -> int:
    """What is left over goes onto shared outlets as long as they give enough."""
    cost = 0
    room = [kind.milliamps * 80 // 100 if not kind.isolated else 0 for kind in kinds]
    for one in left:
        number = next(
            (at for at, kind in enumerate(kinds)
             if room[at] >= one.starting and suits(one, kind) and one.may_share
             and not is_reversed(one, kind)),
            None,
        )  # fmt: skip
        if number is None:
            cost += COSTS.unplaced + one.starting
            continue
        room[number] -= one.starting
        used.add(kinds[number].supply)
        cost += lead_cost(one, number, kinds[number], costs=COSTS) + COSTS.chained
    return cost


def _cost(one: Load, number: int, kinds: Sequence[Kind]) -> int:
    over = one.starting * 100 > kinds[number].milliamps * 80
    return lead_cost(one, number, kinds[number], costs=COSTS) + (COSTS.over if over else 0)


def measured(units: int, seeds: range) -> int:
    """Measure boards of one size; how many went wrong."""
    seconds, ratios = [], []
    short = wrong = rule_leaves_more = 0
    for seed in seeds:
        loads, kinds = made_board(seed, units)
        began = time.process_time()
        plan = plan_power(loads, kinds, watts=SUPPLIES)
        seconds.append(time.process_time() - began)
        short += bool(plan.unplaced)
        rule = by_rule(loads, kinds)
        wrong += not plan.is_best or rule < plan.cost
        rule_leaves_more += rule // COSTS.unplaced > len(plan.unplaced)
        if rule // COSTS.unplaced == len(plan.unplaced):
            ratios.append(_rest(rule, plan) / _rest(plan.cost, plan))
    ranked = sorted(seconds)
    print(
        f"{units} units, {len(seeds)} boards: {len(seeds) - wrong} proved best; seconds: median "
        f"{statistics.median(ranked):.3f}, p95 {ranked[int(0.95 * (len(ranked) - 1))]:.3f}, max "
        f"{ranked[-1]:.3f}; {short} have a unit that fits nowhere"
    )
    same = f"mean {statistics.mean(ratios):.2f}, most {max(ratios):.2f}" if ratios else "none"
    print(f"    simple rule: leaves more units out on {rule_leaves_more}; cost elsewhere: {same}")
    return wrong


def _rest(cost: int, plan: PowerPlan) -> float:
    """The cost without that of units that no plan can serve."""
    return max(1.0, cost - COSTS.unplaced * len(plan.unplaced))


def main() -> int:
    """Measure, and print what was measured."""
    words = argparse.ArgumentParser(description=__doc__.split("\n", maxsplit=1)[0])
    words.add_argument("--boards", type=int, default=50)
    words.add_argument("--first", type=int, default=0, help="the first seed")
    words.add_argument("--units", type=int, nargs="+", default=[12, 20, 28])
    words.add_argument("--quick", action="store_true", help="two boards of 12 units")
    asked = words.parse_args()
    units = [12] if asked.quick else asked.units
    count = 2 if asked.quick else asked.boards
    return 1 if sum(measured(n, range(asked.first, asked.first + count)) for n in units) else 0


if __name__ == "__main__":
    sys.exit(main())
