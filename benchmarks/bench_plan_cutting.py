"""How good cutting lists are, and how fast.

    python benchmarks/bench_plan_cutting.py [--sets 100] [--first 0] [--quick]

Made sets of 20, 60 and 150 pieces: patch cables of 80 to 600 mm and long ones of 400 to 1600 mm,
from spools of 3 and 5 m. Beside the answer stands the usual way (each piece, the longest first, on
the first spool with room). Times are processor time of one process. Exit code 1 when a set takes
more spools than one above the bound, patch cables take more than the bound in more than one set of
a hundred, or the usual way is better.
"""

import argparse
import random
import statistics
import sys
import time

from thruline.plan.cutting import cut

LOSS = 2 * 15 + 2
"""Both ends prepared, and one saw cut, mm."""
MODES = {"patch": (80, 600), "long": (400, 1600)}


def made_set(seed: int, count: int, mode: str) -> list[int]:
    """The sizes of a set of pieces, from its seed."""
    dice = random.Random(f"{mode} {count} {seed}")
    low, high = MODES[mode]
    return [dice.randrange(low, high + 1, 10) + LOSS for _ in range(count)]


def first_fit(sizes: list[int], spool: int) -> int:
    """Spools that the usual way takes."""
    rooms: list[int] = []
    for size in sorted(sizes, reverse=True):
        place = next((at for at, room in enumerate(rooms) if room >= size), None)
        if place is None:
            rooms.append(spool - size)
        else:
            rooms[place] -= size
    return len(rooms)


def main() -> int:
    """Measure, and print what was measured."""
    words = argparse.ArgumentParser(description=__doc__.split("\n", maxsplit=1)[0])
    words.add_argument("--sets", type=int, default=100)
    words.add_argument("--first", type=int, default=0, help="the first seed")
    words.add_argument("--quick", action="store_true", help="three sets of each kind")
    asked = words.parse_args()
    seeds = range(asked.first, asked.first + (3 if asked.quick else asked.sets))
    wrong = 0
    for mode in MODES:
        for spool in (3000, 5000):
            for count in (20, 60, 150):
                seconds, gaps, usual = [], [], []
                for seed in seeds:
                    sizes = made_set(seed, count, mode)
                    began = time.process_time()
                    found = cut(sizes, spool)
                    seconds.append(time.process_time() - began)
                    gaps.append(found.spools - found.bound)
                    usual.append(first_fit(sizes, spool) - found.bound)
                    wrong += usual[-1] < gaps[-1]
                above = sum(gap > 0 for gap in gaps)
                wrong += max(gaps) > 1 or (mode == "patch" and above * 100 > len(gaps))
                print(
                    f"{mode} {count}, {spool / 1000:g} m: at the bound {_share(gaps)}, most above "
                    f"{max(gaps)}; usual way at the bound {_share(usual)}, most above "
                    f"{max(usual)}; "
                    f"ms: median {1000 * statistics.median(seconds):.1f}, "
                    f"max {1000 * max(seconds):.1f}"
                )
    return 1 if wrong else 0


def _share(gaps: list[int]) -> str:
    return f"{100 * sum(gap == 0 for gap in gaps) / len(gaps):.0f} %"


if __name__ == "__main__":
    sys.exit(main())
