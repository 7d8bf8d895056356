"""Orders of messages, measured against the best that can be proved.

    python benchmarks/bench_compose.py [--quick] [--seed N] [--standard N] [--stress N]

Prints for each family the gap to the proved bound, the share proved and the time a preset takes,
and beside it two orders that people use, as ratios.
"""

import argparse
import statistics
import time
from collections.abc import Sequence

from compose_presets import Family, presets

from thruline.compose.jobs import Effort, Job, Means
from thruline.compose.lay import lay
from thruline.compose.order import best_order
from thruline.compose.rule import heads_first
from thruline.compose.wire import wire_of

PERCENT = 100


def baselines(jobs: Sequence[Job]) -> tuple[int, int]:
    """Unit by unit waiting for each, and all heads before all controls, in board order: in us."""
    wire = wire_of(jobs, Means())
    by_unit = lay(wire, list(range(len(wire.job)))).cost[1]
    return by_unit, lay(wire, heads_first(wire)).cost[1]


def measure(family: Family, count: int, seed: int, effort: Effort) -> None:
    """One family with one effort."""
    gaps, times, by_unit, by_heads, proved = [], [], [], [], 0
    for jobs in presets(family, count, seed):
        began = time.process_time()
        found = best_order(jobs, Means(), effort=effort)
        times.append((time.process_time() - began) * 1000)
        gaps.append(PERCENT * (found.makespan_us - found.bound_us) / found.makespan_us)
        proved += found.proved
        unit, heads = baselines(jobs)
        by_unit.append(unit / found.makespan_us)
        by_heads.append(heads / found.makespan_us)
    gaps.sort()
    times.sort()
    print(
        f"{family:9} {effort:6} {count:5} presets: proved {PERCENT * proved / count:6.2f} %, "
        f"gap mean {statistics.fmean(gaps):.4f} % worst {gaps[-1]:.2f} %, "
        f"ms median {statistics.median(times):.2f} p95 {times[int(0.95 * count)]:.1f} "
        f"worst {times[-1]:.0f}"
    )
    print(
        f"{'':17}unit by unit {statistics.fmean(by_unit):.2f} times as long, "
        f"all heads first {statistics.fmean(by_heads):.2f} times"
    )


def main() -> None:
    """Print every measure."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument(
        "--quick", action="store_true", help="few presets, only to see that it runs"
    )
    parser.add_argument("--seed", type=int, default=7)
    parser.add_argument("--standard", type=int, default=2000)
    parser.add_argument("--stress", type=int, default=500)
    asked = parser.parse_args()
    counts = {
        Family.STANDARD: 10 if asked.quick else asked.standard,
        Family.STRESS: 5 if asked.quick else asked.stress,
    }
    for family, count in counts.items():
        for effort in Effort:
            measure(family, count, asked.seed, effort)


if __name__ == "__main__":
    main()
