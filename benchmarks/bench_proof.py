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

from made_rigs import made_rig
from rig_edits import EDITS

from thruline.cli.memory import settle_memory
from thruline.proof.case import Case
from thruline.proof.engine import Proof, prove
from thruline.proof.rulebook import rulebook
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
    table = effect_table(case.layout, case.rig.presets, case.runs(), strokes=case.strokes)
    return tally(count(hold(table)))


REPAIR = "a mistake taken back"


def walk(
    rig: Rig, *, edits: int, seed: int, compare_every: int, repairs: float
) -> dict[str, list[float]]:
    """Times in ms of proofs after edits, by kind of edit; each edit goes on from the last.

    An edit that makes new findings is taken back next, with the probability `repairs`.
    """
    rng = random.Random(seed)
    case = Case(rig)
    count = len(prove(case, rulebook()).findings)
    good = rig
    taken: dict[str, list[float]] = {name: [] for name in (*EDITS, REPAIR)}
    for number in range(edits):
        repaired = case.rig is not good and rng.random() < repairs
        name = REPAIR if repaired else rng.choice(list(EDITS))
        edited = good if repaired else EDITS[name](case.rig, rng)
        began = time.process_time()
        after = Case(edited, case)
        proof = prove(after, rulebook())
        taken[name].append((time.process_time() - began) * MS)
        if number % compare_every == 0 and proof != full(edited):
            raise SystemExit(f"the proof after edit {number} ({name}) differs from a full proof")
        if len(proof.findings) <= count or case.rig is not good:
            good, count = edited, len(proof.findings)
        case = after
    return taken


def report_walk(taken: dict[str, list[float]], *, whole_ms: float) -> None:
    """Median and worst, by kind of edit and over all, and beside a proof from nothing."""
    for name, times in taken.items():
        if times:
            median = statistics.median(times)
            print(
                f"  {name:22} median {median:6.2f} ms   worst {max(times):6.2f} ms   ({len(times)})"
            )
    every = sorted(one for times in taken.values() for one in times)
    median = statistics.median(every)
    print(f"  {'all':22} median {median:6.2f} ms   worst {every[-1]:6.2f} ms")
    print(f"  of a proof from nothing: {median / whole_ms:.3f} and {every[-1] / whole_ms:.3f}")


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
    whole_ms = timed(lambda: full(rig), times)
    print(f"everything from nothing: {whole_ms:.1f} ms")
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
    edits = 20 if asked.quick else asked.edits
    for repairs, told in ((1.0, "mistakes taken back"), (0.0, "mistakes left to pile up")):
        print(f"again after one edit, {told}:")
        walked = walk(rig, edits=edits, seed=asked.seed, compare_every=10, repairs=repairs)
        report_walk(walked, whole_ms=whole_ms)


if __name__ == "__main__":
    main()
