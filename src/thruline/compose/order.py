"""Placeholder until the search lands: jobs' heads first, then blocks, in the order of the jobs."""

from collections.abc import Sequence

from thruline.compose.jobs import Effort, Job, Means, Ordered, Proof, Slot


def best_order(jobs: Sequence[Job], means: Means, *, effort: Effort = Effort.FULL) -> Ordered:
    now, slots, ends, right = 0, [], [], []
    for j, job in enumerate(jobs):
        if job.head_us:
            slots.append(Slot(j, None, now, now + job.head_us))
            now += job.head_us
        ends.append(now)
    for j, job in enumerate(jobs):
        for b, block in enumerate(job.blocks):
            start = max(now, ends[j] + job.lag_us) if means.pauses else now
            pause = -(-(start - now) // 1000) * 1000
            slots.append(Slot(j, b, now + pause, now + pause + block.full_us, pause))
            now += pause + block.full_us
        right.append(now + job.tail_us)
    end = max(right, default=0)
    return Ordered(slots=tuple(slots), lost=(), right_us=tuple(right), makespan_us=end, weighted_us=sum(right), bound_us=end, proof=Proof.NOT_PROVED)
