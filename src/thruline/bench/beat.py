"""MIDI clock made, and measured: tempo, jitter, and whether two sources send it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import sqrt

from thruline.base.measures import CLOCKS_PER_QUARTER
from thruline.bench.send import Planned

MINUTE_US = 60_000_000
BREAK_US = 1_000_000
"""A gap this long is a stop, not a slow clock."""
UNEVEN = 0.35
"""How far short of even every other gap must be, as a share, to be another source's clock."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beat:
    """What was measured on one line.

    `bpm` is over everything; `lowest` and `highest` are tempos over one beat of 24 clocks, for
    over a single clock a millisecond already reads as several beats a minute. `jitter_us` is the
    standard deviation from an even row, `worst_us` the farthest from it.
    """

    clocks: int
    bpm: float
    lowest: float
    highest: float
    jitter_us: int
    worst_us: int
    doubled: bool

    @property
    def says(self) -> str:
        """One sentence."""
        double = (
            "; every other one is out of step: two sources send clock on this line, and whoever "
            f"follows it plays at {self.bpm:.1f} in place of {self.bpm / 2:.1f}"
            if self.doubled
            else ""
        )
        return (
            f"{self.bpm:.2f} bpm over {self.clocks} clocks, {self.lowest:.1f} to "
            f"{self.highest:.1f} from beat to beat, jitter {self.jitter_us / 1000:.2f} ms "
            f"(worst {self.worst_us / 1000:.2f} ms){double}"
        )


def measure(times_us: Sequence[int]) -> Beat | None:
    """The beat of clocks that came at these times; None where there is not a whole beat of them.

    After a stop only the longest stretch counts.
    """
    row = max(_stretches(times_us), key=len, default=[])
    count = len(row) - 1
    if count < CLOCKS_PER_QUARTER or row[-1] == row[0]:
        return None
    tempos = [
        _bpm(CLOCKS_PER_QUARTER, row[at + CLOCKS_PER_QUARTER] - row[at])
        for at in range(count - CLOCKS_PER_QUARTER + 1)
        if row[at + CLOCKS_PER_QUARTER] > row[at]
    ]
    doubled = _is_doubled(row)
    step = (row[-1] - row[0]) / count
    off = [moment - row[0] - step * place for place, moment in enumerate(row)]
    middle = sum(off) / len(off)
    jitter = sqrt(sum((one - middle) ** 2 for one in off) / len(off))
    return Beat(
        clocks=len(row),
        bpm=_bpm(count, row[-1] - row[0]),
        lowest=min(tempos),
        highest=max(tempos),
        jitter_us=round(jitter),
        worst_us=round(max(abs(one - middle) for one in off)),
        doubled=doubled,
    )


def _stretches(times_us: Sequence[int]) -> list[list[int]]:
    """The times parted where the clock stood still."""
    found: list[list[int]] = [[*times_us[:1]]]
    for before, after in pairwise(times_us):
        if after - before >= BREAK_US:
            found.append([])
        found[-1].append(after)
    return found


def _bpm(clocks: int, span_us: int) -> float:
    return MINUTE_US * clocks / (CLOCKS_PER_QUARTER * span_us)


def _is_doubled(row: Sequence[int]) -> bool:
    """Whether gaps are short and long by turns, as two even clocks beside one another make them."""
    gaps = [after - before for before, after in pairwise(row)]
    even, odd = (sum(gaps[start::2]) / len(gaps[start::2]) for start in (0, 1))
    return min(even, odd) < (1 - UNEVEN) * max(even, odd)


def clocks(bpm: float) -> Iterator[Planned]:
    """Clock without end at a tempo. Each is counted from the start, so no error adds up."""
    count = 0
    while True:
        at_us = round(MINUTE_US * count / (CLOCKS_PER_QUARTER * bpm))
        yield Planned(at_us, b"\xf8")
        count += 1
