"""How long it takes to tell who hears whom: from a rig to its network and its hearing.

    python benchmarks/bench_path.py [--quick]

Three boards of 16 units: a line that passes on, a line in which every unit also sends of its own
(so that there are 120 routes), and a star round a split. Time is processor time, the best of
several runs. Exit code 1 when a board takes longer than the limit; `--quick` only
sees that it runs.
"""

import argparse
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent))

from tests.rigs import (
    make_box,
    make_cable,
    make_chart,
    make_controller,
    make_line,
    make_rig,
    make_unit,
)
from thruline.path.hearing import read_hearing
from thruline.path.network import read_network
from thruline.rig.whole import Rig

UNITS = 16
LIMIT_MS = 4.0
RUNS = 15
EACH = 20


def star() -> Rig:
    """A controller, a split, and a unit at each of its outputs."""
    leaves = range(1, UNITS - 1)
    units = [make_unit("feet", "braeburn"), make_unit("box", "split")]
    units += [make_unit(f"unit-{n}", "bramley") for n in leaves]
    cables = [make_cable("feet.midi-out", "box.in-1")]
    cables += [make_cable(f"box.out-{n}", f"unit-{n}.midi-in") for n in leaves]
    charts = [make_controller(), make_chart(), make_box("split", 1, len(leaves))]
    return make_rig(units, cables, charts)


BOARDS: dict[str, Callable[[], Rig]] = {
    "line": lambda: make_line(UNITS - 1),
    "line of merges": lambda: make_line(UNITS - 1, ways=("merge",)),
    "star": star,
}


def best_ms(work: Callable[[], object]) -> float:
    """The best time for one call, in ms."""
    times = []
    for _ in range(RUNS):
        begun = time.process_time()
        for _ in range(EACH):
            work()
        times.append((time.process_time() - begun) / EACH)
    return min(times) * 1000


def main() -> int:
    """Measure every board; the exit code."""
    asked = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    asked.add_argument("--quick", action="store_true", help="only see that it runs")
    options = asked.parse_args()
    slow = False
    for name, board in BOARDS.items():
        rig = board()
        network = read_network(rig)
        wires, heard = best_ms(partial(read_network, rig)), best_ms(partial(read_hearing, network))
        routes = len(read_hearing(network).routes)
        print(f"{name:<15} network {wires:5.2f} ms  hearing {heard:5.2f} ms  {routes:4} routes")
        slow = slow or wires + heard > LIMIT_MS
    return 1 if slow and not options.quick else 0


if __name__ == "__main__":
    sys.exit(main())
