"""How good channel plans are, and how fast.

    python benchmarks/bench_plan_channels.py [--boards 200] [--first 0] [--quick]

Made boards of 40 units on three lines of 16 channels each, 42 to 46 of the 48 in use; some units
take two channels or can be set to few, two hear every channel, and how they are set now clashes.
Each is planned, planned again with one unit pinned elsewhere, and planned by a simple rule (the
most constrained first, each on its cheapest channel, every omni unit behind a filter). Times are
processor time (one thread works). Exit code 1 when a board has neither a best plan nor a clash, or
the rule beats the plan.
"""

import argparse
import random
import statistics
import sys
import time
from collections.abc import Sequence
from dataclasses import replace

from thruline.plan.channels import ChannelWish, Costs, Plan, Slot, cost_of, plan_channels
from thruline.plan.clash import clash

UNITS, LINES, CHANNELS = 40, 3, 16
COSTS = Costs()


def made_board(seed: int) -> list[ChannelWish]:
    """A board from its seed."""
    dice = random.Random(seed)
    wide = set(dice.sample(range(UNITS), dice.randint(2, 6)))
    omni = set(dice.sample(sorted(set(range(UNITS)) - wide), 2))
    per_line = -(-UNITS // LINES)
    return [
        ChannelWish(
            id=f"unit-{place:02}",
            width=2 if place in wide else 1,
            channels=_allowed(dice),
            lines=tuple(range(LINES)) if dice.random() < 0.8 else (dice.randrange(LINES),),
            now=Slot(dice.randrange(LINES), dice.randint(1, 15)) if dice.random() < 0.7 else None,
            ideal=Slot(place // per_line, min(15, 2 + place % per_line)),
            omni=place in omni,
            kinds=_kinds(dice, is_omni=place in omni),
            is_settled=dice.random() < 0.8,
        )
        for place in range(UNITS)
    ]


def _allowed(dice: random.Random) -> tuple[int, ...]:
    if dice.random() < 0.12:
        return (dice.randint(1, 15),)
    if dice.random() < 0.15:
        return tuple(range(1, 9))
    return tuple(range(1, CHANNELS + 1))


def _kinds(dice: random.Random, *, is_omni: bool) -> frozenset[str]:
    if is_omni:
        return frozenset({dice.choice(["note", "program"])})
    return frozenset({"program", "control"}) if dice.random() < 0.7 else frozenset({"control"})


def by_rule(wishes: Sequence[ChannelWish]) -> int | None:
    """The cost of a plan made by a simple rule; None when it finds no room for somebody."""
    free = {Slot(line, channel) for line in range(LINES) for channel in range(1, CHANNELS + 1)}
    cost = 0
    for one in sorted(wishes, key=lambda each: (len(list(each.slots())), -each.width)):
        fits = [slot for slot in one.slots() if free.issuperset(one.taken(slot))]
        if not fits:
            return None
        slot = min(fits, key=lambda each: (cost_of(one, each, COSTS), each))
        free.difference_update(one.taken(slot))
        cost += cost_of(one, slot, COSTS) + (COSTS.filter if one.omni else 0)
    return cost


def pinned(wishes: Sequence[ChannelWish], plan: Plan, dice: random.Random) -> list[ChannelWish]:
    """The board as planned, with one unit pinned to where another is."""
    settled = [replace(one, now=plan.slots[one.id]) for one in wishes]
    freely = [one for one in settled if len(one.channels) > 8 and one.width == 1 and not one.omni]
    one, other = dice.sample(freely, 2)
    line, channel = plan.slots[other.id].line, plan.slots[other.id].channel
    return [
        replace(each, channels=(channel,), lines=(line,)) if each.id == one.id else each
        for each in settled
    ]


def timed(wishes: Sequence[ChannelWish]) -> tuple[Plan | None, float]:
    """A plan, and its seconds."""
    began = time.process_time()
    plan = plan_channels(wishes, COSTS)
    return plan, time.process_time() - began


def spread(values: Sequence[float]) -> str:
    """Median, 95th percentile and most."""
    ranked = sorted(values)
    p95 = ranked[int(0.95 * (len(ranked) - 1))]
    return f"median {statistics.median(ranked):.3f}, p95 {p95:.3f}, max {ranked[-1]:.3f}"


def main() -> int:
    """Measure, and print what was measured."""
    words = argparse.ArgumentParser(description=__doc__.split("\n", maxsplit=1)[0])
    words.add_argument("--boards", type=int, default=200)
    words.add_argument("--first", type=int, default=0, help="the first seed")
    words.add_argument("--quick", action="store_true", help="five boards")
    asked = words.parse_args()
    count = 5 if asked.quick else asked.boards
    plan_channels(made_board(asked.first))  # loads the library
    seconds, again, explained, moved, ratios = [], [], [], [], []
    proved = rule_failed = wrong = 0
    for seed in range(asked.first, asked.first + count):
        board = made_board(seed)
        plan, took = timed(board)
        seconds.append(took)
        rule = by_rule(board)
        if plan is None:
            began = time.process_time()
            found = clash(board)
            explained.append(time.process_time() - began)
            wrong += found is None or rule is not None
            continue
        proved += 1
        rule_failed += rule is None
        if rule is not None:
            ratios.append(rule / plan.cost)
            wrong += rule < plan.cost
        changed = pinned(board, plan, random.Random(seed))
        after, took = timed(changed)
        again.append(took)
        if after is not None:
            moved.append(sum(after.slots[one.id] != one.now for one in changed) - 1)
    print(f"{count} boards of {UNITS} units: {proved} proved best, {len(explained)} explained")
    print(f"plan, seconds: {spread(seconds)}")
    print(f"plan again with one unit pinned, seconds: {spread(again)}")
    print(f"others moved then: mean {statistics.mean(moved):.2f}, most {max(moved)}")
    if explained:
        print(f"clash explained, seconds: {spread(explained)}")
    if ratios:
        print(
            f"simple rule, cost against the best: mean {statistics.mean(ratios):.2f}, most "
            f"{max(ratios):.2f}; no room found on {rule_failed} boards that have a plan"
        )
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
