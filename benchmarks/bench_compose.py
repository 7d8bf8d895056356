"""Orders of messages, measured against what can be proved.

    python benchmarks/bench_compose.py [--quick] [--seed N] [--standard N] [--stress N]

For each family and effort: the gap between the order found and the bound below which nothing can
end, the share proved, the time that a preset takes, and beside it two orders that people use, as
ratios. Seeds below 100 were looked at while the searches were made; those from 100 on were kept
aside, and the default is one of them.
"""

import argparse
import statistics
import time
from collections.abc import Sequence
from dataclasses import dataclass, field

from compose_presets import Family, presets

from thruline.compose.jobs import Effort, Job, Means, Ordered, Pauses
from thruline.compose.lay import cost_of
from thruline.compose.order import best_order
from thruline.compose.rule import heads_first
from thruline.compose.wire import wire_of

AT_WILL = Means()
OTHERS = {
    "steps of 1 ms": Means(pauses=Pauses(step_us=1_000)),
    "steps of 10 ms": Means(pauses=Pauses(step_us=10_000)),
    "two pauses": Means(pauses=Pauses(step_us=1_000, most=2)),
    "no pauses": Means(pauses=None),
    "programs first": Means(programs_first=True),
}


@dataclass(slots=True)
class Measured:
    """What came out, preset by preset."""

    found: list[Ordered] = field(default_factory=list)
    times_ms: list[float] = field(default_factory=list)
    by_unit: list[float] = field(default_factory=list)
    by_heads: list[float] = field(default_factory=list)


def measure(some: Sequence[Sequence[Job]], means: Means, effort: Effort) -> Measured:
    """Order every preset, and time it by the processor's clock."""
    measured = Measured()
    for jobs in some:
        began = time.process_time()
        found = best_order(jobs, means, effort=effort)
        measured.times_ms.append((time.process_time() - began) * 1000)
        measured.found.append(found)
        wire = wire_of(jobs, means)
        listed = list(range(len(wire.job)))
        measured.by_unit.append(cost_of(wire, listed)[1] / found.makespan_us)
        measured.by_heads.append(cost_of(wire, heads_first(wire))[1] / found.makespan_us)
    return measured


def at(values: Sequence[float], share: float) -> float:
    """The value that this share of the values is not above."""
    return sorted(values)[min(len(values) - 1, int(share * len(values)))]


def told(measured: Measured) -> str:
    """One row."""
    gaps = [100 * one.gap for one in measured.found]
    count = len(gaps)
    proved = 100 * sum(one.proved for one in measured.found) / count
    return (
        f"proved {proved:6.2f} %  gap mean {statistics.fmean(gaps):.4f} p99 {at(gaps, 0.99):.2f} "
        f"worst {max(gaps):.2f} %  ms median {statistics.median(measured.times_ms):.2f} "
        f"p95 {at(measured.times_ms, 0.95):.1f} worst {max(measured.times_ms):.0f}  "
        f"lost {sum(len(one.lost) for one in measured.found)}"
    )


def main() -> None:
    """Print every measure."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--quick", action="store_true", help="few presets, to see that it runs")
    parser.add_argument("--seed", type=int, default=100)
    parser.add_argument("--standard", type=int, default=2000)
    parser.add_argument("--stress", type=int, default=500)
    asked = parser.parse_args()
    counts = {Family.STANDARD: asked.standard, Family.STRESS: asked.stress}
    for family, count in counts.items():
        some = presets(family, 5 if asked.quick else count, asked.seed)
        for effort in Effort:
            measured = measure(some, AT_WILL, effort)
            print(f"{family} {len(some)} {effort:6} {told(measured)}", flush=True)
        unit, heads = map(statistics.fmean, (measured.by_unit, measured.by_heads))
        mean = statistics.fmean(one.makespan_us for one in measured.found) / 1000
        print(f"{family} best {mean:.1f} ms; by unit {unit:.2f}, heads first {heads:.2f} times")
        for name, means in OTHERS.items():
            part = some[: max(1, len(some) // 20)]
            print(
                f"{family} {len(part)} {name}: {told(measure(part, means, Effort.FULL))}",
                flush=True,
            )


if __name__ == "__main__":
    main()
