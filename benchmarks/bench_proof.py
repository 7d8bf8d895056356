"""The whole proof, measured: from nothing, sameness alone, growing, and again after single edits.

    python benchmarks/bench_proof.py [--quick] [--edits N] [--seed N]

Times are of the processor, best of several; the same settings for collecting garbage as the command
uses. A proof after an edit is compared with a full proof of the same rig.
"""

import argparse
import random
import resource
import statistics
import time
from collections.abc import Callable
from dataclasses import replace
from types import MappingProxyType

from made_rigs import made_rig

from thruline.cli.memory import settle_memory
from thruline.proof.case import Case
from thruline.proof.engine import Proof, prove
from thruline.proof.rulebook import rulebook
from thruline.rig.preset import ControlGoal, Goal, Preset
from thruline.rig.unit import Unit
from thruline.rig.values import Value
from thruline.rig.whole import Rig
from thruline.sameness.counts import count, tally
from thruline.sameness.effects import effect_table
from thruline.sameness.held import hold

MS = 1000


def timed(work: Callable[[], object], times: int) -> float:
    """Best processor time in ms."""
    best = float("inf")
    for _ in range(times):
        began = time.process_time()
        work()
        best = min(best, time.process_time() - began)
    return best * MS


def full(rig: Rig) -> Proof:
    """A proof from nothing."""
    return prove(Case(rig), rulebook())


def sameness(case: Case) -> object:
    """The sets of values of all cells, and how many differ."""
    table = effect_table(case.board.layout, case.rig.presets, case.runs(), strokes=case.strokes)
    return tally(count(hold(table)))


def with_preset(rig: Rig, place: int, preset: Preset) -> Rig:
    """The rig with one preset exchanged."""
    presets = (*rig.presets[:place], preset, *rig.presets[place + 1 :])
    return replace(rig, presets=presets)


def with_unit(rig: Rig, unit: Unit) -> Rig:
    """The rig with one unit exchanged."""
    return replace(rig, units=MappingProxyType({**rig.units, unit.id: unit}))


def edit_value(rig: Rig, rng: random.Random) -> Rig:
    """Another value in one preset."""
    place = rng.randrange(len(rig.presets))
    preset = rig.presets[place]
    number = rng.randrange(len(preset.goals))
    goal = preset.goals[number]
    control = rng.choice(list(rig.units[goal.unit].chart.controls.values()))
    wire = rng.randrange(128)
    others = tuple(one for one in goal.controls if one.control.id != control.id)
    controls = (*others, ControlGoal(control, Value(str(wire), wire, str(wire))))
    changed = Goal(unit=goal.unit, program=goal.program, controls=controls, in_loop=goal.in_loop)
    goals = (*preset.goals[:number], changed, *preset.goals[number + 1 :])
    return with_preset(rig, place, replace(preset, goals=goals))


def edit_program(rig: Rig, rng: random.Random) -> Rig:
    """A preset no longer recalls a program of one unit."""
    place = rng.randrange(len(rig.presets))
    preset = rig.presets[place]
    number = rng.randrange(len(preset.goals))
    goals = list(preset.goals)
    goals[number] = replace(goals[number], program=None)
    return with_preset(rig, place, replace(preset, goals=tuple(goals)))


def edit_sweep(rig: Rig, rng: random.Random) -> Rig:
    """A sweep is on fewer presets."""
    place = rng.randrange(len(rig.sweeps))
    sweep = rig.sweeps[place]
    numbers = [preset.number for preset in rig.presets]
    chosen = tuple(sorted(rng.sample(numbers, rng.randrange(1, len(numbers)))))
    sweeps = (*rig.sweeps[:place], replace(sweep, presets=chosen), *rig.sweeps[place + 1 :])
    return replace(rig, sweeps=sweeps)


def edit_channel(rig: Rig, rng: random.Random) -> Rig:
    """A unit is set to another channel."""
    unit = rng.choice([unit for unit in rig.units.values() if unit.chart.listens])
    channel = rng.randrange(1, 17)
    return with_unit(rig, replace(unit, channel=channel, sent_on=channel))


def edit_name(rig: Rig, rng: random.Random) -> Rig:
    """A preset is called otherwise."""
    place = rng.randrange(len(rig.presets))
    preset = replace(rig.presets[place], name=f"Renamed {rng.randrange(1000)}")
    return with_preset(rig, place, preset)


EDITS = {
    "a value": edit_value,
    "a program taken out": edit_program,
    "a sweep's presets": edit_sweep,
    "a name": edit_name,
    "a unit's channel": edit_channel,
}


def walk(rig: Rig, *, edits: int, seed: int, compare_every: int) -> dict[str, list[float]]:
    """Times in ms of proofs after edits, by kind of edit; each edit goes on from the last."""
    rng = random.Random(seed)
    case = Case(rig)
    prove(case, rulebook())
    taken: dict[str, list[float]] = {name: [] for name in EDITS}
    for number in range(edits):
        name = rng.choice(list(EDITS))
        edited = EDITS[name](case.rig, rng)
        began = time.process_time()
        after = Case(edited, case)
        proof = prove(after, rulebook())
        taken[name].append((time.process_time() - began) * MS)
        if number % compare_every == 0 and proof != full(edited):
            raise SystemExit(f"the proof after edit {number} ({name}) differs from a full proof")
        # Go back now and then, so that the rig stays one that people would have.
        case = after if rng.random() < 0.8 else case
    return taken


def report_walk(taken: dict[str, list[float]]) -> None:
    """Median and worst, by kind of edit and over all."""
    for name, times in taken.items():
        if times:
            median = statistics.median(times)
            print(
                f"  {name:22} median {median:6.2f} ms   worst {max(times):6.2f} ms   ({len(times)})"
            )
    every = sorted(one for times in taken.values() for one in times)
    print(f"  {'all':22} median {statistics.median(every):6.2f} ms   worst {every[-1]:6.2f} ms")


def main() -> None:
    """Print every measure."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument(
        "--quick", action="store_true", help="small sizes, only to see that it runs"
    )
    parser.add_argument("--edits", type=int, default=300)
    parser.add_argument("--seed", type=int, default=9)
    asked = parser.parse_args()
    settle_memory()
    units, presets, times = (4, 16, 1) if asked.quick else (16, 128, 5)
    rig = made_rig(asked.seed, units=units, presets=presets)
    proof = full(rig)
    extent = proof.proved
    print(f"{units} units, {presets} presets, {extent.changes:,} changes, {extent.cells:,} cells")
    print(f"  findings {len(proof.findings)}, untold {len(proof.untold)}, rules {extent.rules}")
    print(f"everything from nothing: {timed(lambda: full(rig), times):.1f} ms")
    case = Case(rig)
    case.runs()
    print(f"sameness of all cells:   {timed(lambda: sameness(case), times):.1f} ms")
    base = None
    for more in () if asked.quick else (128, 320, 640):
        grown = made_rig(asked.seed, units=units, presets=more)
        taken = timed(lambda grown=grown: full(grown), 2)
        pairs = more * (more - 1)
        base = base or taken / pairs
        ratio = taken / pairs / base
        print(
            f"{more} presets, {pairs:,} pairs: {taken:.0f} ms, per pair {ratio:.2f} of that at 128"
        )
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    print(f"most memory of the process so far: {peak} MB")
    print("again after one edit:")
    edits = 20 if asked.quick else asked.edits
    report_walk(walk(rig, edits=edits, seed=asked.seed, compare_every=10))


if __name__ == "__main__":
    main()
