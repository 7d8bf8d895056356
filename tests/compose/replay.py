"""A sending played message by message, slowly and on its own: it shares nothing with `compose`.

It is told the order and the pauses, and finds out the rest: how long each piece takes, which are
too early, and when each unit is right.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from thruline.compose.jobs import Job, Means, Slot


@dataclass(frozen=True, slots=True)
class Played:
    """What was seen."""

    times: list[tuple[int, int]]
    lost: list[Slot]
    right_us: list[int]


def played(jobs: Sequence[Job], means: Means, slots: Sequence[Slot]) -> Played:
    """Play the slots; only their jobs, blocks and pauses are looked at."""
    clock, behind = 0, None
    times, lost = [], []
    ends: dict[tuple[int, int | None], int] = {}
    for slot in slots:
        job = jobs[slot.job]
        clock += slot.pause_us
        if slot.pause_us and not means.idle_keeps_status:
            behind = None
        length = job.head_us
        if slot.block is not None:
            block = job.blocks[slot.block]
            length = block.kept_us if behind == slot.job else block.full_us
            if is_early(job, slot, ends, clock):
                lost.append(slot)
        times.append((clock, clock + length))
        clock, behind = clock + length, None if slot.block is None else slot.job
        ends[slot.job, slot.block] = clock
    return Played(times, lost, [right(job, number, ends) for number, job in enumerate(jobs)])


def is_early(job: Job, slot: Slot, ends: dict[tuple[int, int | None], int], clock: int) -> bool:
    """Whether a block comes before its unit listens."""
    head = ends.get((slot.job, None))
    if head is not None and clock < head + job.lag_us:
        return True
    behind = ends.get((slot.job, slot.block - 1)) if slot.block else head
    return behind is not None and clock < behind + job.blocks[slot.block].lag_us


def right(job: Job, number: int, ends: dict[tuple[int, int | None], int]) -> int:
    """When the unit of a job is right."""
    own = [end for (one, _), end in ends.items() if one == number]
    if not own:
        return 0
    loaded = ends[number, None] + job.load_us if job.head_us else 0
    return max(*own, loaded) + job.tail_us if len(own) > 1 else max(own[0], loaded) + job.tail_us
