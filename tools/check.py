"""Every check of the code and its pages, with one command: `python3 start.py check`.

Checks run side by side and are told in a fixed order; naming some (`check types docs`) runs only
those. Exit code 0 when all are clean, 1 when one is not, 2 for a name that is none.
"""

import os
import subprocess
import sys
import time
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import NamedTuple

PYTHON = (sys.executable, "-m")
LINT_IMPORTS = str(Path(sys.executable).with_name("lint-imports"))


class Check(NamedTuple):
    """One check: what it is called, what it keeps true, and the command that tells."""

    name: str
    keeps: str
    command: Sequence[str]


class Outcome(NamedTuple):
    """How a check went: its exit code, all that it said, and how long it took."""

    check: Check
    code: int
    said: str
    seconds: float


CHECKS = (
    Check(
        "lint",
        "the code keeps the rules in pyproject.toml",
        (*PYTHON, "ruff", "check", "--output-format=concise"),
    ),
    Check("format", "the code is laid out alike", (*PYTHON, "ruff", "format", "--check")),
    Check("types", "the types hold", (*PYTHON, "mypy")),
    Check("imports", "imports run one way", (LINT_IMPORTS, "--no-logo")),
    Check("shape", "sizes, names and places are kept", (*PYTHON, "pytest", "-q", "tests/shape")),
    Check(
        "reference", "generated pages are up to date", (*PYTHON, "tools.write_reference", "--check")
    ),
    Check("docs", "the pages build and need no network", (*PYTHON, "tools.build_docs")),
)


def run(check: Check) -> Outcome:
    """Run one check to its end."""
    begun = time.monotonic()
    done = subprocess.run(
        check.command,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        check=False,
    )
    return Outcome(check, done.returncode, done.stdout, time.monotonic() - begun)


def told(outcome: Outcome) -> str:
    """An outcome as a person reads it: one row, and all that was said when it failed."""
    check = outcome.check
    verdict = "ok    " if outcome.code == 0 else "FAILED"
    row = f"{verdict} {check.name:<10} {check.keeps:<46} {outcome.seconds:5.1f} s"
    return row if outcome.code == 0 else f"{row}\n{outcome.said.rstrip()}\n"


def main(names: Sequence[str]) -> int:
    """Run the named checks, or all of them; the exit code."""
    known = [check.name for check in CHECKS]
    for name in names:
        if name not in known:
            print(f'There is no check "{name}", but: {", ".join(known)}', file=sys.stderr)
            return 2
    chosen = [check for check in CHECKS if not names or check.name in names]
    failed = 0
    with ThreadPoolExecutor(os.cpu_count()) as side_by_side:
        for outcome in side_by_side.map(run, chosen):
            print(told(outcome), flush=True)
            failed += outcome.code != 0
    print(f"{len(chosen) - failed} of {len(chosen)} checks are clean.")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
