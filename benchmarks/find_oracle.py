"""The best plan of checks that there is, by search: no rule, however clever, needs less time.

The search is in `find_optimum.c`, built with the C compiler of this machine when it is first asked
for. `agrees` holds it against trying out every plan of small puzzles.
"""

import ctypes
import shutil
import subprocess
import tempfile
from functools import cache
from pathlib import Path

import numpy as np

from thruline.find.puzzle import Puzzle, Whole, is_solved, made, splits

SOURCE = Path(__file__).with_name("find_optimum.c")
MOST_ROWS, MOST_CHECKS = 128, 256
"""What the search has room for."""
MOST_VISITS = 3_000_000
"""States that are looked into before the search gives up: minutes."""


@cache
def _built() -> ctypes.CDLL | None:
    """The search as a library; None where there is no C compiler."""
    compiler = shutil.which("cc")
    if compiler is None:
        return None
    library = Path(tempfile.mkdtemp()) / "find_optimum.so"
    words = [compiler, "-O3", "-shared", "-fPIC", "-o", str(library), str(SOURCE), "-lm"]
    subprocess.run(words, check=True)  # noqa: S603 - our own source, by the machine's compiler
    found = ctypes.CDLL(str(library))
    found.optimum.restype = ctypes.c_double
    return found


def exact(puzzle: Puzzle, *, known: float, visits: int = MOST_VISITS) -> float:
    """The weighted seconds of the best plan, `known` being those of a plan that somebody has.

    Not a number where that takes too long, or where nothing can be built.
    """
    library, (rows, checks) = _built(), puzzle.outcomes.shape
    if library is None or rows > MOST_ROWS or checks > MOST_CHECKS:
        return float("nan")
    outcomes = np.ascontiguousarray(puzzle.outcomes, np.int64)
    mends = np.ascontiguousarray(puzzle.classes, np.int64)
    weights = np.ascontiguousarray(puzzle.weights, np.float64)
    seconds = np.ascontiguousarray(puzzle.seconds, np.float64)
    found = library.optimum(
        ctypes.c_int(rows),
        ctypes.c_int(checks),
        *(ctypes.c_void_p(one.ctypes.data) for one in (outcomes, mends, weights, seconds)),
        ctypes.c_double(known),
        ctypes.c_long(visits),
        ctypes.byref(ctypes.c_long()),
    )
    return min(found, known) if found >= 0 else float("nan")


def agrees(count: int = 40) -> bool:
    """Whether the search finds what trying out every plan of small seeded puzzles does."""
    rng = np.random.default_rng(5)
    for _ in range(count):
        rows, checks = int(rng.integers(3, 9)), int(rng.integers(3, 8))
        puzzle = made(
            rng.integers(0, 3, (rows, checks)),
            rng.integers(0, 6, rows).tolist(),
            weights=rng.uniform(0.1, 1, rows),
            seconds=rng.integers(1, 40, checks).astype(np.float64),
        )
        plain = _plain(puzzle, puzzle.all_rows, {})
        found = exact(puzzle, known=float("inf"))
        if not np.isnan(found) and abs(found - plain) > 1e-6:
            return False
    return True


def _plain(puzzle: Puzzle, state: Whole, known: dict[bytes, float]) -> float:
    """The same without any bound: every check that splits the state, tried."""
    key = state.tobytes()
    if is_solved(puzzle, state) or not _tellable(puzzle, state):
        return 0.0
    if key not in known:
        weight = float(puzzle.weights[state].sum())
        known[key] = min(
            weight * float(puzzle.seconds[check])
            + sum(_plain(puzzle, after, known) for after in splits(puzzle, state, check))
            for check in range(puzzle.seconds.size)
            if len(splits(puzzle, state, check)) > 1
        )
    return known[key]


def _tellable(puzzle: Puzzle, state: Whole) -> bool:
    """Whether any check tells two suspects with different mends apart."""
    seen, mends = puzzle.outcomes[state], puzzle.classes[state]
    alike = (seen[:, None, :] == seen[None, :, :]).all(axis=2)
    return bool((~alike & (mends[:, None] != mends[None, :])).any())
