"""Jobs laid out as flat lists of pieces: the form that everything else here works on.

A piece is a head or a block. The pieces of one job have consecutive numbers and leave in that
order; a sequence is a list of piece numbers in the order of the wire. A run is a block with those
after it that may follow at once with the same status.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from thruline.compose.jobs import Job, Means, Pauses

NO_LIMIT = 1 << 60
"""Longer than any sending, in microseconds; more than any count."""

NOTHING = 0
"""The status of a wire on which no running status can be kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wire:
    """All pieces of all jobs; every list has one entry a piece, except `first`."""

    means: Means
    waits: bool
    """Whether the wire may idle as often and as long as is wanted (see `can_wait`)."""
    first: list[int] = field(default_factory=list)
    """By job: its first piece; one entry more at the end."""
    job: list[int] = field(default_factory=list)
    block: list[int] = field(default_factory=list)
    """Its place among the blocks of its job; -1 for a head."""
    before: list[int] = field(default_factory=list)
    """The piece before it in its job, -1 for none."""
    after: list[int] = field(default_factory=list)
    """The piece after it in its job, -1 for none."""
    root: list[int] = field(default_factory=list)
    """The first piece of its job."""
    joined: list[bool] = field(default_factory=list)
    """Whether it belongs to the run of the piece before it."""
    full: list[int] = field(default_factory=list)
    kept: list[int] = field(default_factory=list)
    least: list[int] = field(default_factory=list)
    """The wire time that it needs in the best case, `idle` counted in."""
    status: list[int] = field(default_factory=list)
    """The same for two pieces when the second may save a byte behind the first."""
    lag: list[int] = field(default_factory=list)
    """It may start that long after the piece before it in its job, if any."""
    idle: list[int] = field(default_factory=list)
    """Time before it that a bound may count as wire time. It keeps the status of a piece some lag
    before it only if the wire idles through that lag; so it takes its full wire time from the
    others either way."""
    deaf: list[int] = field(default_factory=list)
    """It is lost less than that long after the head of its job. Whoever can wait for the first
    block of a job need not look at this for the others."""
    rest: list[int] = field(default_factory=list)
    """From its end until its job is right, in the best case; exact for a last piece."""
    tail: list[int] = field(default_factory=list)
    """For a last piece: from its end until its job is right, if it is not still loading."""
    load: list[int] = field(default_factory=list)
    """For a last piece that may come while its unit is still loading: `load_us`; else 0."""
    weight: list[int] = field(default_factory=list)
    """For a last piece: the weight of its job; else 0."""
    inside: list[list[int]] = field(default_factory=list)
    """For a stretch of blocks (see `stretches`): how long before its end each but the first
    starts."""


def can_wait(means: Means) -> bool:
    """Whether the wire may idle as often and as long as is wanted, so that nothing is lost."""
    return most_pauses(means) == NO_LIMIT


def most_pauses(means: Means) -> int:
    """How many pauses there may be."""
    if means.pauses is None or not longest_pause(means.pauses):
        return 0
    return NO_LIMIT if means.pauses.most is None else means.pauses.most


def longest_pause(pauses: Pauses) -> int:
    """The longest single pause in whole steps; 0 when not even a step is allowed."""
    if pauses.longest_us is None:
        return NO_LIMIT
    return pauses.longest_us // pauses.step_us * pauses.step_us


def wire_of(jobs: Sequence[Job], means: Means) -> Wire:
    """The pieces of the jobs, numbered in the order of the jobs."""
    wire = Wire(means=means, waits=can_wait(means))
    first = 0
    for number, job in enumerate(jobs):
        wire.first.append(first)
        if job.head_us:
            _add_head(wire, job)
        if job.blocks:
            _add_blocks(wire, number, job)
        end = len(wire.full)
        if end > first:
            wire.job.extend([number] * (end - first))
            wire.root.extend([first] * (end - first))
            _add_rest(wire, first, job)
            first = end
    wire.first.append(first)
    _chain(wire)
    return wire


def _chain(wire: Wire) -> None:
    """Fill in what comes before and after each piece in its job."""
    count = len(wire.full)
    wire.before.extend(range(-1, count - 1))
    wire.after.extend(range(1, count + 1))
    for first, end in zip(wire.first, wire.first[1:], strict=False):
        if first < end:
            wire.before[first] = wire.after[end - 1] = -1
    wire.inside.extend([[]] * count)


def _add_head(wire: Wire, job: Job) -> None:
    wire.block.append(-1)
    wire.joined.append(False)
    wire.full.append(job.head_us)
    wire.kept.append(job.head_us)
    wire.least.append(job.head_us)
    wire.status.append(NOTHING)
    wire.lag.append(0)
    wire.idle.append(0)
    wire.deaf.append(0)


def _add_blocks(wire: Wire, number: int, job: Job) -> None:
    deaf_us = lag_us = job.lag_us if job.head_us else 0
    first = True
    waits = wire.waits
    keeps = wire.means.idle_keeps_status or not waits
    for block in job.blocks:
        lag_us = max(lag_us, block.lag_us)
        full_us, kept_us = block.full_us, block.kept_us
        goes_on = not first and (keeps or not lag_us)
        idle_us = min(lag_us, full_us - kept_us) if goes_on and waits else 0
        least_us = kept_us + idle_us if goes_on else full_us
        wire.joined.append(goes_on and not lag_us)
        wire.full.append(full_us)
        wire.kept.append(kept_us)
        wire.least.append(least_us)
        wire.idle.append(idle_us)
        wire.lag.append(lag_us)
        first, lag_us = False, 0
    count = len(job.blocks)
    wire.status.extend([number + 1] * count)
    if not job.head_us:
        wire.lag[-count] = 0
    wire.block.extend(range(count))
    wire.deaf.extend([deaf_us] * count)


def _add_rest(wire: Wire, first: int, job: Job) -> None:
    end = len(wire.full)
    none = [0] * (end - first - 1)
    rest = job.tail_us + (job.load_us if job.head_us and not none else 0)
    wire.load.extend((*none, job.load_us if job.head_us and none else 0))
    wire.tail.extend((*none, rest))
    wire.weight.extend((*none, job.weight))
    waits = wire.waits
    rests = [rest]
    for piece in range(end - 1, first, -1):
        rest += wire.least[piece] - wire.idle[piece] + (wire.lag[piece] if waits else 0)
        rests.append(rest)
    if job.head_us and job.load_us + job.tail_us > rest:
        rests[-1] = job.load_us + job.tail_us
    rests.reverse()
    wire.rest.extend(rests)
