"""A job looked at from the end: its runs, last first, as the search from the end sends them.

"Sent", "next" and "after" are turned round here, as in `backward`.
"""

from dataclasses import dataclass
from itertools import accumulate
from operator import sub

from thruline.compose.windows import Windows


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A run, last block first."""

    pieces: tuple[int, ...]
    sums: tuple[int, ...]
    """Wire time of so many blocks, status kept."""
    status_us: int
    """What each stretch of blocks sent in one go takes more."""
    lag_us: int
    """From its end until the next run of its job is ready."""
    alone: bool
    """Whether it keeps its status from the next run of its job when nothing comes between."""
    idle_us: int
    """How much of the idle time after it is counted as its own wire time then."""
    needs: tuple[int, ...]
    """By blocks sent already: what is left of it, in the best case."""
    soonest_us: int
    """It is not ready before this."""
    rest_us: int
    """From its end until everything is sent, in the best case."""


def stages_of(windows: Windows, job: int) -> list[Stage]:
    """The runs of a job, last first."""
    wire = windows.wire
    first, end = wire.first[job], wire.first[job + 1]
    begins = [piece for piece in range(first, end) if not wire.joined[piece]]
    stages: list[Stage] = []
    for begin, stop in zip(begins, [*begins[1:], end], strict=True):
        kept = wire.kept[begin:stop]
        status_us = min(map(sub, wire.full[begin:stop], kept))
        idle_us = wire.idle[begin]
        alone = status_us > 0 and wire.least[begin] - idle_us < wire.full[begin]
        sums = (0, *accumulate(reversed(kept)))
        needs_us = sums[-1] + (idle_us if alone else status_us)
        stages.append(
            Stage(
                pieces=tuple(range(stop - 1, begin - 1, -1)),
                sums=sums,
                status_us=status_us,
                lag_us=wire.lag[begin],
                alone=alone,
                idle_us=idle_us,
                needs=(*[needs_us - done for done in sums[:-1]], 0),
                soonest_us=windows.rests[stop - 1],
                rest_us=windows.starts[begin],
            )
        )
    return stages[::-1]
