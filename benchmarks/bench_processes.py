"""How long whole processes take, from the call to the prompt, with byte code compiled.

    python benchmarks/bench_processes.py [--runs 15] [--quick] [--imports WORDS]

For each command the best and the middle of the runs, on the clock and in processor time, beside
what a bare Python takes and a yardstick: a process that imports the two large libraries that every
answer needs. The limits hold where the yardstick takes 100 ms; on a slower machine they grow with
it. Exit code 1 when the best processor time of one is over its limit, but with `--quick` never:
that only shows that all of it runs. `--imports "prove a.rig.toml"` lists instead which modules cost
the command most to import.
"""

import argparse
import compileall
import os
import re
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from importlib.resources import files
from pathlib import Path

SOURCES = Path(__file__).resolve().parent.parent / "src"
RIG = str(files("thruline") / "samples" / "orchard-street" / "orchard-street.rig.toml")
BARE: Sequence[str] = ("-c", "pass")
YARDSTICK: Sequence[str] = ("-c", "import numpy, pydantic")
USUAL = 100
"""Processor time in ms that the yardstick takes on the machine that the limits are meant for."""
MODULE: Sequence[str] = ("-m", "thruline")
CASES: Sequence[tuple[str, Sequence[str], int | None]] = (
    ("python", BARE, None),
    ("import thruline", ("-c", "import thruline"), None),
    ("--version", (*MODULE, "--version"), 150),
    ("--help", (*MODULE, "--help"), 150),
    ("chart show", (*MODULE, "chart", "show", "bramley-delay"), 450),
    ("rules", (*MODULE, "rules"), 500),
    ("prove", (*MODULE, "prove", RIG), 600),
    ("trace", (*MODULE, "trace", RIG, "5"), 900),
    ("demo", (*MODULE, "demo"), 3000),
)
"""What is called, with which words, and the limit in ms on the usual machine."""
WORST = 20
"""Modules that `--imports` lists."""


def once(words: Sequence[str], folder: str) -> tuple[float, float]:
    """One process: milliseconds on the clock, and of processor time."""
    before, began = os.times(), time.perf_counter()
    subprocess.run(  # noqa: S603 - the commands are spelled out above
        [sys.executable, *words], cwd=folder, stdout=subprocess.DEVNULL, check=False
    )
    clock = time.perf_counter() - began
    after = os.times()
    used = after.children_user + after.children_system
    used -= before.children_user + before.children_system
    return clock * 1000, used * 1000


def measured(name: str, words: Sequence[str], *, runs: int) -> float:
    """Measure one case and begin its row; the best processor time in ms."""
    with tempfile.TemporaryDirectory() as folder:
        taken = [once(words, folder) for _ in range(runs)]
    clock, used = zip(*taken, strict=True)
    print(
        f"{name:<16} {min(clock):7.0f} {statistics.median(clock):7.0f}"
        f" {min(used):7.0f} {statistics.median(used):7.0f}",
        end="",
    )
    return min(used)


def kept(name: str, words: Sequence[str], limit: int | None, *, scale: float, runs: int) -> bool:
    """Measure one command and print its row; whether it stays within its limit."""
    best = measured(name, words, runs=runs)
    if limit is None:
        print()
        return True
    allowed = limit * scale
    print(f"  limit {allowed:.0f}" + ("" if best <= allowed else "  OVER"))
    return best <= allowed


def print_imports(words: str) -> None:
    """The modules that cost a command most to import, themselves only."""
    command = [sys.executable, "-X", "importtime", *MODULE, *words.split()]
    done = subprocess.run(command, capture_output=True, text=True, check=False)  # noqa: S603 - as above
    said = done.stderr
    rows = re.findall(r"import time:\s+(\d+) \|\s+(\d+) \|\s+(\S+)", said)
    print(f"{len(rows)} modules, {sum(int(own) for own, _, _ in rows) / 1000:.0f} ms in all")
    for own, _, name in sorted(rows, key=lambda row: -int(row[0]))[:WORST]:
        print(f"{int(own) / 1000:7.1f} ms  {name}")


def main() -> int:
    """Measure all cases; the exit code."""
    options = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    options.add_argument("--runs", type=int, default=15)
    options.add_argument("--quick", action="store_true")
    options.add_argument("--imports")
    chosen = options.parse_args()
    compileall.compile_dir(str(SOURCES), quiet=1)
    if chosen.imports:
        print_imports(chosen.imports)
        return 0
    print(f"{'ms':<16} {'clock':>7} {'middle':>7} {'cpu':>7} {'middle':>7}")
    runs = 2 if chosen.quick else chosen.runs
    scale = max(1.0, measured("yardstick", YARDSTICK, runs=max(runs, 5)) / USUAL)
    print(f"  limits x {scale:.2f}")
    within = [kept(*case, scale=scale, runs=runs) for case in CASES]
    return 0 if chosen.quick or all(within) else 1


if __name__ == "__main__":
    sys.exit(main())
