"""Whole numbers as people list them: `1 to 8, 10`."""

from collections.abc import Iterable

MOST = 8
"""So many spans are listed before the rest is only counted."""


def spans(numbers: Iterable[int]) -> str:
    """Runs of numbers by their first and last, each number once and in order."""
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    listed = [str(a) if a == b else f"{a} to {b}" for a, b in runs[:MOST]]
    rest = sum(b - a + 1 for a, b in runs[MOST:])
    return ", ".join(listed) + (f" and {rest} more" if rest else "")
