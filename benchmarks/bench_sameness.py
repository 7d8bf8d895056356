"""How fast sameness is proved, and whether it agrees with visiting every cell.

    python benchmarks/bench_sameness.py [--seed 1] [--edits 300] [--quick]

Made rigs of 16 units with 8 controls each, spoiled at random: presets that forget a unit, a program
or a control, and three to six sweeps. Times are wall clock, the best of several runs. Exit code 1
when the brute force counts other cells, or when going on from before gives another result than
starting anew. `--quick` makes five edits: enough to see that all of this still runs.
"""

import argparse
import random
import resource
import statistics
import sys
import time
import tracemalloc
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from made_rigs import made_charts, made_document

from thruline.compose.goals import wanted_of
from thruline.document.rig_shape import RigShape
from thruline.path.hearing import read_hearing
from thruline.path.network import read_network
from thruline.rig.preset import Goal, Preset
from thruline.rig.resolve import resolve
from thruline.rig.sweep import POSITIONS
from thruline.rig.whole import Rig
from thruline.sameness.codes import KEEPS
from thruline.sameness.columns import Layout, layout_of
from thruline.sameness.counts import Counts, cells_off, count, tally
from thruline.sameness.effects import EffectTable, effect_table
from thruline.sameness.fights import sweeps_and_presets, two_sweeps
from thruline.sameness.held import Entering, hold
from thruline.sameness.jumps import jumps
from thruline.sameness.leftovers import leftovers, unclear
from thruline.sameness.strokes import Strokes, strokes_of
from thruline.timing.roads import Roads, roads_of
from thruline.timing.run import Hand, Run, listeners_of, run_all
from thruline.timing.sending import Sending

RUNS = 15
HAND = Hand(gap_us=0, running_status=False)
LOADED_US = 60_000
"""Longer than any made unit loads."""


@dataclass(frozen=True)
class Stand:
    """A rig with all that sameness is given of it."""

    rig: Rig
    roads: Roads
    layout: Layout
    strokes: Strokes
    runs: tuple[Run, ...]

    def table(self, before: EffectTable | None = None) -> EffectTable:
        """Its table, perhaps going on from an earlier one."""
        return effect_table(
            self.layout, self.rig.presets, self.runs, strokes=self.strokes, before=before
        )


def spoiled(seed: int, *, presets: int, units: int = 16) -> Rig:
    """A made rig with what people forget, and more sweeps."""
    rng = random.Random(seed)
    document = made_document(seed, units=units, presets=presets)
    for preset in document["preset"]:
        for box in [key for key in preset if key.startswith("box-")]:
            if rng.random() < 0.06:
                del preset[box]
            elif rng.random() < 0.06:
                del preset[box]["program"]
    document["sweep"] += [
        some_sweep(number, rng, presets=presets, units=units)
        for number in range(3, rng.randint(3, 6) + 1)
    ]
    charts = made_charts(seed, units=units, controls=8, presets=presets)
    pedals = charts["feet"].pedals
    plain = {**pedals, "exp-2": replace(pedals["exp-2"], on_recall=False)}
    charts["feet"] = replace(charts["feet"], pedals=plain)
    return resolve(RigShape.model_validate(document), charts)


def some_sweep(number: int, rng: random.Random, *, presets: int, units: int) -> dict[str, Any]:
    """A sweep of up to four controls, on about half of the presets."""
    boxes = rng.sample(range(1, units + 1), min(units, rng.randint(1, 4)))
    return {
        "name": f"Sweep {number}",
        "pedal": f"feet.exp-{rng.choice((1, 2))}",
        "presets": [one for one in range(1, presets + 1) if rng.random() < 0.5],
        "moves": [
            {"unit": f"box-{box}", "control": f"knob-{rng.randrange(8)}"}
            | {"heel": rng.randrange(64), "toe": rng.randrange(64, 128), "curve": "s"}
            for box in boxes
        ],
    }


def sending(rig: Rig, preset: Preset) -> Sending:
    """All programs, a pause in which every unit loads, then all controls."""
    wanted = wanted_of(rig, preset)
    heads = [item for one in wanted for item in one.head]
    controls = [item for one in wanted for group in one.groups for item in group]
    if controls:
        controls[0] = controls[0]._replace(pause_us=LOADED_US)
    return Sending((*heads, *controls))


def stand(rig: Rig) -> Stand:
    """A rig with its roads, columns, strokes and runs."""
    network = read_network(rig)
    roads = roads_of(network, rig.controller)
    layout = layout_of(rig)
    sendings = [sending(rig, preset) for preset in rig.presets]
    return Stand(
        rig,
        roads,
        layout,
        strokes_of(rig, read_hearing(network), layout),
        run_all(roads, listeners_of(rig.units.values()), sendings=sendings, hand=HAND),
    )


def best_ms(work: Callable[[], object]) -> float:
    """The shortest time of several, in ms."""
    times = []
    for _ in range(RUNS):
        begun = time.perf_counter()
        work()
        times.append(time.perf_counter() - begun)
    return min(times) * 1000


def proved(table: EffectTable) -> Counts:
    """The whole proof of a table: every set, every class, every cell counted."""
    counts = count(hold(table))
    tally(counts)
    return counts


def told(table: EffectTable, counts: Counts) -> tuple[Sequence[object], ...]:
    """What is told to people, each leftover with its presets and an example."""
    held = counts.held
    return (
        [(one.left_in, one.example) for one in leftovers(held)],
        unclear(held),
        jumps(table),
        two_sweeps(table),
        sweeps_and_presets(table),
    )


def measure(seed: int, presets: int) -> None:
    """One size: how long each step takes."""
    one = stand(spoiled(seed, presets=presets))
    table = one.table()
    counts = proved(table)
    sums = tally(counts)
    entries = np.bincount(counts.held.entering.reshape(-1), minlength=len(Entering))
    kinds = ", ".join(f"{amount} {kind}" for kind, amount in zip(Entering, entries, strict=True))
    print(
        f"{presets} presets x {sums.columns} columns, {len(one.strokes.strokes)} moved: "
        f"{sums.changes:,} changes, {sums.cells:,} cells"
    )
    print(f"    {kinds}; {sums.changes_off:,} changes and {sums.cells_off:,} cells differ")
    whole = best_ms(lambda: proved(table))
    print(f"    read the runs into a table        {best_ms(one.table):9.3f} ms")
    print(f"    prove every cell                  {whole:9.3f} ms")
    print(f"    tell {sum(map(len, told(table, counts))):5} results for people     ", end="")
    print(f"{best_ms(lambda: told(table, counts)):9.3f} ms")
    tracemalloc.start()
    proved(table)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    print(f"    memory while proving              {peak / 1e6:9.3f} MB")


def edited(one: Stand, rng: random.Random) -> Stand:
    """One value of one preset changed, one control added or forgotten, or one unit forgotten."""
    row = rng.randrange(len(one.rig.presets))
    preset = one.rig.presets[row]
    goals = list(preset.goals)
    place = rng.randrange(len(goals)) if goals else None
    donor = rng.choice(rng.choice(one.rig.presets).goals or (Goal(unit="box-1"),))
    if place is None or rng.random() < 0.5:
        goals = [goal for goal in goals if goal.unit != donor.unit] + [donor]
    elif rng.random() < 0.5:
        goals[place] = replace(goals[place], controls=goals[place].controls[:-1])
    else:
        del goals[place]
    changed = replace(preset, goals=tuple(goals))
    presets = (*one.rig.presets[:row], changed, *one.rig.presets[row + 1 :])
    rig = replace(one.rig, presets=presets)
    (run,) = run_all(
        one.roads, listeners_of(rig.units.values()), sendings=[sending(rig, changed)], hand=HAND
    )
    return replace(one, rig=rig, runs=(*one.runs[:row], run, *one.runs[row + 1 :]))


def edit_presets(seed: int, edits: int) -> bool:
    """Random edits of presets, each proved from the one before; whether all agree with anew."""
    rng = random.Random(seed)
    one = stand(spoiled(seed, presets=128))
    table = one.table()
    counts = proved(table)
    times, columns = [], []
    for number in range(edits):
        one = edited(one, rng)
        begun = time.perf_counter()
        table = one.table(table)
        counts = count(hold(table, counts.held), counts)
        tally(counts)
        times.append((time.perf_counter() - begun) * 1000)
        columns.append(counts.held.renewed.size)
        if number % 10 == 0 and not agree(counts, proved(one.table())):
            print("    an edit gives another result than starting anew")
            return False
    ordered = sorted(times)
    print(
        f"{edits} edits of one preset: median {statistics.median(times):.3f} ms, "
        f"p99 {ordered[len(ordered) * 99 // 100]:.3f} ms, max {ordered[-1]:.3f} ms; "
        f"{statistics.mean(columns):.1f} columns renewed; every tenth compared with anew"
    )
    return True


def edit_unit(seed: int) -> bool:
    """One unit set to another channel: every run is another one, few columns change."""
    one = stand(spoiled(seed, presets=128))
    table = one.table()
    counts = proved(table)
    units = dict(one.rig.units)
    units["box-5"] = replace(units["box-5"], channel=6)
    other = stand(replace(one.rig, units=units))

    def again() -> Counts:
        after = count(hold(other.table(), counts.held), counts)
        tally(after)
        return after

    hearing = read_hearing(read_network(other.rig))
    print(
        f"one unit edited: {best_ms(again):.3f} ms ({again().held.renewed.size} columns renewed), "
        f"strokes anew {best_ms(lambda: strokes_of(other.rig, hearing, other.layout)):.3f} ms, "
        f"columns anew {best_ms(lambda: layout_of(other.rig)):.3f} ms"
    )
    return agree(again(), proved(other.table()))


def agree(one: Counts, other: Counts) -> bool:
    """Whether two counts are equal in everything."""
    arrays = ("usual", "off", "hidden", "asked")
    same = all(np.array_equal(getattr(one, name), getattr(other, name)) for name in arrays)
    return same and np.array_equal(one.held.entering, other.held.entering)


def brute_force(table: EffectTable, counts: Counts) -> tuple[int, int]:
    """Cells visited one by one, and how many of them differ from the usual value."""
    effects, usual = table.effects.tolist(), counts.usual.tolist()
    asks, decides = counts.asked.tolist(), table.cover.decides.tolist()
    entering, power_up = counts.held.entering.tolist(), table.layout.power_up.tolist()
    moved: dict[tuple[int, int], list[list[int]]] = {}
    for stroke in table.strokes.strokes:
        for row in stroke.rows.tolist():
            moved.setdefault((row, stroke.column), []).append(stroke.stairs.tolist())
    several = list(Entering).index(Entering.SEVERAL)
    visited = differ = 0
    for entered in range(len(effects)):
        for left in range(len(effects)):
            if left == entered:
                continue
            for column, own in enumerate(effects[left]):
                still = power_up[column] if own == KEEPS else own
                stairs = moved.get((left, column), [[still] * POSITIONS])
                rests = 0 if decides[left][column] else 1
                counts_here = asks[entered][column] and entering[entered][column] == several
                for values in ([still] * rests, *stairs):
                    for value in values:
                        visited += 1
                        if counts_here and value != usual[column] and value >= 0:
                            differ += 1
    return visited, differ


def compare_with_brute_force(seed: int) -> bool:
    """A small rig both ways; whether they count the same."""
    table = stand(spoiled(seed, presets=16, units=6)).table()
    counts = proved(table)
    begun = time.perf_counter()
    visited, differ = brute_force(table, counts)
    brute = (time.perf_counter() - begun) * 1000
    ours = best_ms(lambda: proved(table))
    print(
        f"brute force, 16 presets x {table.effects.shape[1]} columns: {visited:,} cells in "
        f"{brute:.0f} ms, {differ:,} differ; proved in {ours:.3f} ms, "
        f"{brute / ours:,.0f} times as fast"
    )
    return differ == int(cells_off(counts).sum()) and visited == tally(counts).cells


def main() -> int:
    """Measure and compare."""
    asked = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    asked.add_argument("--seed", type=int, default=1, help="another seed, other rigs")
    asked.add_argument("--edits", type=int, default=300, help="how many edits of a preset")
    asked.add_argument("--quick", action="store_true", help="only see that it runs")
    options = asked.parse_args()
    for presets in (128, 320, 640):
        measure(options.seed, presets)
    agreed = [
        edit_presets(options.seed, 5 if options.quick else options.edits),
        edit_unit(options.seed),
        compare_with_brute_force(options.seed),
    ]
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000
    print(f"peak of the whole process: {peak:.0f} MB")
    print("everything agrees" if all(agreed) else "SOMETHING DIFFERS")
    return 0 if all(agreed) else 1


if __name__ == "__main__":
    sys.exit(main())
