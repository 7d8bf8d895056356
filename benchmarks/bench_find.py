"""How good is the next question? Exact expected seconds on seeded boards, and trials with errors.

    python benchmarks/bench_find.py [--quick] [--from 0] [--seeds 3] [--cases 100] [--optimum 10]

Boards are chains and trees of 3 to 12 units. Per board: one fault of eleven kinds, answers that can
be trusted, every fault weighed by its odds. Ours is held against
- outwards: from the controller along the line to the first unit that is not right, then everything
  about that unit and its lead, the cheapest first, and whatever is left after that;
- all looks: the same, but looking at every unit that can still tell something before touching any;
- halving the line; and the most information per second, nothing planned;
- the best plan there is: a search, up to `--optimum` units;
- a bound: what it costs to prove the answer to somebody who knows it.
Everyone pays for each check, asks none that can tell nothing more, and stops once it is known.

Then whole searches on six units with people who err: single faults, pairs, loose leads, nothing.
Seeds begin at `--from`, those of the whole searches `--from` further on than usual.
"""

import argparse
import sys
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass

import numpy as np
from find_oracle import agrees, exact
from find_rigs import board
from find_trials import SEED, trials

from thruline.find import puzzle as p
from thruline.find.checks import Check, checks_for
from thruline.find.field import Field, field_of, field_with
from thruline.find.kinds import Kind
from thruline.find.meant import meant_by
from thruline.find.predict import predict
from thruline.find.search import Did, Search, Step
from thruline.find.standing import stand
from thruline.find.suspect import Suspect
from thruline.find.suspects import suspects_of
from thruline.find.trials import Trial
from thruline.find.worlds import Worlds
from thruline.proof.case import Case

KINDS = frozenset({
    Kind.CABLE_OPEN, Kind.CABLE_OTHER_TYPE, Kind.CABLE_CROSSED, Kind.NO_POWER, Kind.CHANNEL_ABOVE,
    Kind.PROGRAMS_OFF, Kind.NUMBERS_ONE_UP, Kind.OUTPUT_NOT_PASSING, Kind.INPUT_DEAD,
    Kind.ENTRY_MISSING, Kind.MEMORY_NOT_WRITTEN,
})  # fmt: skip
SECONDS = {
    Trial.LOOK: 4.0, Trial.LAMP: 3.0, Trial.STRAIGHT: 40.0, Trial.SWAP: 30.0, Trial.TESTER: 25.0,
    Trial.POWER: 2.0, Trial.CHANNEL: 12.0, Trial.MENU: 12.0, Trial.NUMBERS: 15.0,
    Trial.ENTRY: 15.0, Trial.WRITTEN: 10.0,
}  # fmt: skip
HEAD = (
    "units shape  outwards   looks halving  info/s    ours optimum   bound  "
    "ours/opt  (worst)  out/ours looks/ours ours/bound opt/bound"
)
LOOKS = frozenset({Trial.LOOK})
RIGHT = 0
"""The outcome of a look at a unit that is as it should be."""


@dataclass(frozen=True)
class Board:
    """A puzzle of one board, and its checks by column."""

    puzzle: p.Puzzle
    checks: tuple[Check, ...]
    place: tuple[int, ...]
    """How far down the line each check is about something, in the order of the document."""


def wanted(checks: Iterable[Check], *, glance: bool) -> list[Check]:
    """Looks at every unit, lamps on every second one, readings, leads, straight in."""
    allowed = {*SECONDS, Trial.GLANCE} if glance else set(SECONDS)
    return [
        one
        for one in checks
        if one.trial in allowed
        and not (one.trial is Trial.LAMP and int(one.unit.partition("-")[2]) % 2)
    ]


def small_field(seed: int, units: int, *, tree: bool, glance: bool, more: frozenset[Kind]) -> Field:
    """The suspects and checks of the comparison, predicted as ever."""
    meant = meant_by(Case(board(seed, units, tree=tree)))
    kinds = KINDS | more
    suspects: list[Suspect] = [
        one
        for one in suspects_of(meant)
        if one.kind in kinds and one.on.partition(".")[0] != "split"
    ]
    checks = wanted(checks_for(meant, suspects, seconds=SECONDS), glance=glance)
    if more:
        extra = checks_for(meant, suspects)
        checks += [one for one in extra if one.trial in (Trial.REPEAT, Trial.WIGGLE)]
    worlds = Worlds(meant)
    return field_with(worlds, suspects, checks, predicted=predict(worlds, suspects, checks))


def made_board(seed: int, units: int, *, tree: bool, glance: bool) -> Board:
    """A puzzle in which every suspect has odds of its own."""
    field = small_field(seed, units, tree=tree, glance=glance, more=frozenset())
    rng = np.random.default_rng(seed)
    weights = field.prior[2:] * rng.uniform(0.2, 1.0, len(field.suspects))
    puzzle = p.made(
        field.outcomes[2:],
        field.mends[2:],
        weights=weights / weights.sum(),
        seconds=field.seconds,
    )
    units = list(field.meant.rig.units)
    place = tuple(
        max((n for n, unit in enumerate(units) if unit in _named(one)), default=0)
        for one in field.checks
    )
    return Board(puzzle, field.checks, place)


def _named(check: Check) -> set[str]:
    """The units that a check is about; of a lead the one behind it."""
    return {part.partition(".")[0] for part in check.id.rpartition(">")[2].split()}


def outwards(made: Board, state: p.Whole) -> int:
    """From the controller to the first unit that is not right, then all about that one."""
    useful = p.rates(made.puzzle, state) > p.TINY
    rest = [n for n in np.flatnonzero(useful).tolist() if made.checks[n].trial not in LOOKS]
    for look in (n for n, one in enumerate(made.checks) if one.trial in LOOKS):
        right = made.puzzle.outcomes[state, look] == RIGHT
        if not right.any():
            near = [n for n in rest if made.place[n] == made.place[look]]
            return min(near or rest, key=lambda n: _along(made, n), default=_any(useful))
        if useful[look]:
            return look
    return min(rest, key=lambda n: _along(made, n), default=_any(useful))


def _along(made: Board, check: int) -> tuple[int, float]:
    return made.place[check], float(made.puzzle.seconds[check])


def _any(useful: np.ndarray) -> int:
    return int(useful.argmax()) if useful.any() else p.NONE


def all_looks(made: Board, state: p.Whole) -> int:
    """Every look that can still tell something, outwards; then the same as outwards.

    After the looks whatever stands first along the line, the cheapest first, whatever its odds.
    """
    rate = p.rates(made.puzzle, state)
    looks = [n for n, one in enumerate(made.checks) if one.trial in LOOKS and rate[n] > p.TINY]
    if looks:
        return looks[0]
    rest = np.flatnonzero(rate > p.TINY).tolist()
    return min(rest, key=lambda n: (made.place[n], made.puzzle.seconds[n]), default=p.NONE)


def halving(made: Board, state: p.Whole) -> int:
    """The look that parts what is left most evenly."""
    rate = p.rates(made.puzzle, state)
    looks = [n for n, one in enumerate(made.checks) if one.trial in LOOKS and rate[n] > p.TINY]
    if not looks:
        return p.by_rule(made.puzzle, state)
    weights = made.puzzle.weights

    def largest(check: int) -> float:
        return max(float(weights[after].sum()) for after in p.splits(made.puzzle, state, check))

    return min(looks, key=largest)


def cost(made: Board, pick: Callable[[Board, p.Whole], int], state: p.Whole) -> float:
    """Expected seconds of a way to pick checks."""
    check = p.NONE if p.is_solved(made.puzzle, state) else pick(made, state)
    if check == p.NONE:
        return 0.0
    here = float(made.puzzle.weights[state].sum() * made.puzzle.seconds[check])
    return here + sum(cost(made, pick, after) for after in p.splits(made.puzzle, state, check))


def ours(made: Board, state: p.Whole) -> int:
    """As the fault finder picks."""
    return p.best_check(made.puzzle, state)


def proof_bound(puzzle: p.Puzzle) -> float:
    """What it costs to prove each answer: the cheapest checks that part it from all others."""
    total = 0.0
    for row in range(puzzle.classes.size):
        others = np.flatnonzero(puzzle.classes != puzzle.classes[row])
        apart = puzzle.outcomes[others] != puzzle.outcomes[row]
        apart = apart[apart.any(axis=1)]
        total += puzzle.weights[row] * _cover(apart, puzzle.seconds, float("inf"))
    return total


def _cover(apart: np.ndarray, seconds: np.ndarray, limit: float) -> float:
    """The least cost of columns that cover every row."""
    if not apart.size:
        return 0.0
    hardest = apart[apart.sum(axis=1).argmin()]
    best = limit
    for check in sorted(np.flatnonzero(hardest).tolist(), key=lambda one: seconds[one]):
        if seconds[check] >= best:
            break
        rest = apart[~apart[:, check]]
        best = min(best, seconds[check] + _cover(rest, seconds, best - seconds[check]))
    return best


def compare(seeds: range, optimum: int, *, glance: bool) -> bool:
    """The table of expected seconds; whether the targets are met."""
    print(f"\nexpected seconds, {'with' if glance else 'without'} glances at several units")
    print(HEAD)
    met = True
    for units in (3, 4, 5, 6, 7, 8, 9, 10, 12):
        for tree in (False, True):
            rows = [
                one_board(made_board(seed, units, tree=tree, glance=glance), units <= optimum)
                for seed in seeds
            ]
            met = show(units, tree, np.array(rows), bounded=glance) and met
    return met


def one_board(made: Board, with_optimum: bool) -> list[float]:
    """All figures of one board."""
    puzzle, state = made.puzzle, made.puzzle.all_rows
    mine = cost(made, ours, state)
    return [
        cost(made, outwards, state),
        cost(made, all_looks, state),
        cost(made, halving, state),
        p.plan_cost(puzzle, state, 0),
        mine,
        exact(puzzle, known=mine) if with_optimum else float("nan"),
        proof_bound(puzzle),
    ]


def show(units: int, tree: bool, rows: np.ndarray, *, bounded: bool) -> bool:
    """One row of the table; whether it meets its targets.

    Where the best plan is not known it is to be `bounded` by the proof. Without glances no plan
    comes that near on twelve units: the best there is needs 2.58 times the bound (seed 0, chain).
    """
    out, looks, half, rate, mine, _, bound = rows.mean(axis=0)
    known = rows[~np.isnan(rows[:, 5])]
    best = known[:, 5].mean() if known.size else float("nan")
    ratios = known[:, 4] / known[:, 5] if known.size else np.array([float("nan")])
    print(
        f"{units:5d} {'tree ' if tree else 'chain'} {out:9.1f} {looks:7.1f} {half:7.1f} "
        f"{rate:7.1f} {mine:7.1f} {best:7.1f} {bound:7.1f}  {ratios.mean():8.4f} "
        f"{ratios.max():8.4f}  {out / mine:8.2f} {looks / mine:10.2f} {mine / bound:10.2f} "
        f"{(known[:, 5] / known[:, 6]).mean() if known.size else float('nan'):9.2f}",
        flush=True,
    )
    near = not known.size or ratios.mean() <= (1.0005 if units <= 6 else 1.015)
    unproved = bounded and known.size == 0 and units > 10
    return bool(near and out >= 1.35 * mine and (not unproved or mine <= 2.5 * bound))


def latency() -> bool:
    """How long the first question and the next take, with everything there is to suspect.

    Time of one core: what else the machine does meanwhile is not ours.
    """
    print("\nwaiting for a question, ms of one core (all suspects and checks; best of five)")
    met = True
    for units, most in ((6, 50), (12, 200)):
        case = Case(board(1, units, tree=False))
        best = [float("inf")] * 2
        for _ in range(5):
            begin = time.process_time()
            field = field_of(case)
            standing = stand(field, Search())
            first = time.process_time()
            seen = field.looked_at[-1]
            stand(field, standing.search.after(Step(Did.ANSWERED, standing.check.id, seen)))
            best = [
                min(best[0], first - begin),
                min(best[1], time.process_time() - first),
            ]
        print(
            f"{units:3d} units: {len(field.suspects)} suspects, {len(field.checks)} checks: "
            f"first {best[0] * 1000:.0f}, next {best[1] * 1000:.0f} (target {most})"
        )
        met = met and max(best) * 1000 <= most
    return met


def main() -> int:
    """Run everything; 1 when a target is missed, unless it is only to see that it runs."""
    words = argparse.ArgumentParser()
    words.add_argument("--quick", action="store_true", help="one board a size, to see that it runs")
    words.add_argument("--seeds", type=int, default=3)
    words.add_argument("--cases", type=int, default=100)
    words.add_argument("--from", dest="first", type=int, default=0, help="where the seeds begin")
    words.add_argument("--optimum", type=int, default=10, help="units up to which it is sought")
    asked = words.parse_args()
    if asked.quick:
        asked.seeds, asked.cases, asked.optimum = 1, 2, 3
    seeds = range(asked.first, asked.first + asked.seeds)
    met = [agrees()]
    met += [compare(seeds, asked.optimum, glance=glance) for glance in (False, True)]
    met.append(latency())
    fields = [
        small_field(
            SEED + asked.first + n,
            6,
            tree=bool(n % 2),
            glance=True,
            more=frozenset({Kind.CABLE_LOOSE}),
        )
        for n in range(4)
    ]
    met.append(trials(fields, asked.cases, seed=SEED + asked.first))
    return 0 if asked.quick or all(met) else 1


if __name__ == "__main__":
    sys.exit(main())
