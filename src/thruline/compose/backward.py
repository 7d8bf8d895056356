"""The order that ends earliest, searched from the end of the sending towards its start.

Turned round in time a unit first has its tail, then its controls, then its settle, then its head,
and after its head nothing more. So a head never has to go before anything that is still to be
done, and only the controls have to be put in order: the many orders of the heads, which make a
search in the order of the wire hopeless, fall away. What is left is settled by these rules, each
shown by swapping two neighbours or moving one piece into a gap, without loss:

- a first run of a job (its head, or its controls when it has none) waits while any other run is
  ready, and ready first runs may go in any order;
- a run is cut only for a run that became ready while it was being sent;
- the wire idles only if no ready piece fits into the gap.

Branches are given up when Jackson's bound says so, or when the same pieces were sent before, in no
more time and with every run ready no later. All words here look from the end: "ready", "next" and
"sent" are turned round, too.
"""

from dataclasses import dataclass
from itertools import accumulate
from operator import le

from thruline.compose.bound import Piece, preemptive
from thruline.compose.lay import NO_LIMIT
from thruline.compose.wire import Wire

MOST_PIECES = 400
"""Beyond this the search would go deeper than Python's own stack."""

_ANY: frozenset[int] = frozenset()
"""Where the next job is free to choose."""

_MOST_KEPT = 30
"""How many states of the same pieces are remembered: more are seldom met again."""


@dataclass(frozen=True, slots=True)
class Found:
    """What the search found."""

    sequence: list[int] | None
    """An order that ends earlier than asked, or None."""
    bound_us: int
    """Nothing ends before this; 0 when the search was cut short."""


def search(wire: Wire, *, below_us: int, nodes: int) -> Found:
    """Look for an order that ends before `below_us`, in at most so many steps.

    `wire` is that of a controller that can pause at will. Where several jobs share a running
    status the search counts it as always kept, so that an order may end later than the search
    thinks; `bound_us` holds all the same.
    """
    if len(wire.job) > MOST_PIECES:
        return Found(None, 0)
    looking = _Search(wire, below_us, nodes)
    looking.visit(0, _ANY)
    sequence = looking.best and [piece for run in looking.best for piece in run][::-1]
    return Found(sequence, looking.below if looking.nodes >= 0 else 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stage:
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
    rest_us: int
    """From its end until all of its job is sent, in the best case."""


def _stages(wire: Wire, job: int) -> list[_Stage]:
    """The runs of a job, last first."""
    first, end = wire.first[job], wire.first[job + 1]
    begins = [piece for piece in range(first, end) if not wire.joined[piece]]
    heads_before, heads = _held_heads(wire, first)
    rest_us = heads_before if wire.block[first] < 0 else heads
    stages: list[_Stage] = []
    for begin, stop in zip(begins, [*begins[1:], end], strict=True):
        blocks = range(stop - 1, begin - 1, -1)
        shared = wire.status[begin] in wire.shared or _loads_after(wire, begin)
        status_us = 0 if shared else min(wire.full[one] - wire.kept[one] for one in blocks)
        idle_us = wire.idle[begin]
        alone = status_us > 0 and wire.least[begin] - idle_us < wire.full[begin]
        sums = (0, *accumulate(wire.kept[one] for one in blocks))
        always_us = idle_us if alone else status_us
        lag_us = wire.lag[begin]
        if stages:
            rest_us = max(stages[-1].rest_us + stages[-1].needs[0] + lag_us - idle_us, heads)
        stages.append(
            _Stage(
                pieces=tuple(blocks),
                sums=sums,
                status_us=status_us,
                lag_us=lag_us,
                idle_us=idle_us,
                alone=alone,
                needs=(*(sums[-1] - done + always_us for done in sums[:-1]), 0),
                rest_us=rest_us,
            )
        )
    return stages[::-1]


def _loads_after(wire: Wire, piece: int) -> bool:
    """Whether a block keeps the status of its head, and yet something may have to come between.

    The head may have to leave earlier than its block needs: for the heads that are to follow it,
    or because its unit loads for long.
    """
    head = wire.before[piece]
    kept = wire.least[piece] - wire.idle[piece]
    if head < 0 or wire.block[head] >= 0 or kept == wire.full[piece]:
        return False
    last = wire.first[wire.job[piece] + 1] - 1
    load = wire.load[last] + wire.tail[last]
    return wire.means.programs_first or load > wire.lag[piece] + kept + wire.rest[piece]


def _held_heads(wire: Wire, first: int) -> tuple[int, int]:
    """Wire time of the heads before a piece, and of all, when all leave before the blocks."""
    if not wire.means.programs_first:
        return 0, 0
    heads = [piece for piece, block in enumerate(wire.block) if block < 0]
    return (
        sum(wire.full[head] for head in heads if head < first),
        sum(wire.full[head] for head in heads),
    )


class _Search:
    """One search: what is sent so far, looked at from the end, and the best order yet."""

    def __init__(self, wire: Wire, below: int, nodes: int) -> None:
        self.below = below
        self.nodes = nodes
        self.best: list[tuple[int, ...]] | None = None
        jobs = [j for j in range(len(wire.first) - 1) if wire.first[j] < wire.first[j + 1]]
        lasts = [wire.first[job + 1] - 1 for job in jobs]
        self.stages = [_stages(wire, job) for job in jobs]
        self.last = [len(stages) - 1 for stages in self.stages]
        self.loaded = [
            wire.load[last] + wire.tail[last] if wire.load[last] else 0 for last in lasts
        ]
        self.held = [
            wire.means.programs_first and wire.block[wire.first[job]] < 0 for job in jobs
        ]
        self.at = [0] * len(jobs)
        self.sent = [0] * len(jobs)
        self.ready = [wire.tail[last] for last in lasts]
        self.left = sum(stage.needs[0] for stages in self.stages for stage in stages)
        """Wire time of all that is not sent, in the best case."""
        self.path: list[tuple[int, ...]] = []
        self.known: dict[tuple[int, ...], list[list[int]]] = {}

    def visit(self, clock: int, must: frozenset[int]) -> None:
        """Try everything that can follow what is sent; `must`: the only jobs that may be next."""
        self.nodes -= 1
        if self.nodes < 0:
            return
        waiting = [job for job, at in enumerate(self.at) if at < self.last[job]]
        closing = [job for job, at in enumerate(self.at) if at == self.last[job]]
        for job in must.intersection(closing):
            self.send_part(job, clock, must=_ANY)
            return
        if not waiting:
            self.close(clock, closing)
            return
        filling = [job for job in closing if not self.held[job]]
        clock = max(clock, min(self.ready[job] for job in waiting + filling))
        if self.least_time(clock, waiting + closing) >= self.below:
            return
        if self.is_known(clock, waiting, closing, must=must):
            return
        runs = sorted((max(clock, self.ready[job]), job) for job in waiting)
        fills = sorted((max(clock, self.ready[job]), job) for job in filling)
        now = [job for start, job in runs + fills if start == clock]
        before = clock + min(map(self.block_us, now))
        for start, job in self.by_urgency(clock, runs):
            if start < before and (not must or job in must):
                self.send_run(job, start, runs)
        if runs[-1][0] > clock:
            self.fill_gap(runs, [fill for fill in fills if fill[0] < before], must)

    def fill_gap(
        self, runs: list[tuple[int, int]], fills: list[tuple[int, int]], must: frozenset[int]
    ) -> None:
        """Send a first run before something that is still to become ready.

        One whole run is as good as another of its length.
        """
        tried: set[int] = set()
        for start, job in fills:
            later = [(ready, one) for ready, one in runs if ready > start]
            if must:
                later = [(ready, one) for ready, one in later if one in must]
            length = self.stages[job][-1].needs[self.sent[job]]
            if later and length not in tried:
                tried.add(length)
                self.send_part(job, start, must=frozenset(one for _, one in later))

    def send_part(self, job: int, start: int, *, must: frozenset[int]) -> None:
        """Send a first run, or as much of it as there is time for."""
        stage, sent = self.stages[job][-1], self.sent[job]
        for upto in range(len(stage.pieces), sent, -1):
            end = start + stage.status_us + stage.sums[upto] - stage.sums[sent]
            self.go_on(job, upto, end, must=must)

    def close(self, clock: int, closing: list[int]) -> None:
        """Send all first runs as they become ready, heads after the rest if they must be."""
        order = sorted(
            closing, key=lambda job: (self.held[job], -job if self.held[job] else self.ready[job])
        )
        for job in order:
            stage = self.stages[job][-1]
            clock = max(clock, self.ready[job]) + stage.needs[self.sent[job]]
        if clock < self.below:
            self.below = clock
            rest = [self.stages[job][-1].pieces[self.sent[job] :] for job in order]
            self.best = [*self.path, *rest]

    def least_time(self, clock: int, jobs: list[int]) -> int:
        """Jackson's bound for what is not sent yet."""
        pieces: list[Piece] = []
        for job in jobs:
            stages, at, last = self.stages[job], self.at[job], self.last[job]
            stage, start = stages[at], self.ready[job]
            start = max(start, clock)
            need = stage.needs[self.sent[job]]
            pieces.append((start, -stage.rest_us, need))
            while at < last:
                start += need + stage.lag_us - stage.idle_us
                at += 1
                if at == last and start < self.loaded[job]:
                    start = self.loaded[job]
                stage = stages[at]
                need = stage.needs[0]
                pieces.append((start, -stage.rest_us, need))
        return preemptive(pieces)

    def is_known(
        self, clock: int, waiting: list[int], closing: list[int], *, must: frozenset[int]
    ) -> bool:
        """Whether the same pieces were sent before, with nothing later than now.

        A first run that gets ready when nothing else is still to get ready waits until the wire is
        free, or until something else is still to get ready; when exactly it gets ready is all one.
        """
        settled = max(clock, *(self.ready[job] for job in waiting))
        free = clock + sum(self.stages[job][self.at[job]].needs[self.sent[job]] for job in waiting)
        for job in waiting:
            if self.at[job] < self.last[job] - 1:
                stage = self.stages[job][self.at[job]]
                free = min(free, max(clock, self.ready[job]) + stage.needs[self.sent[job]] - stage.idle_us)
        state = [clock, *(max(clock, self.ready[job]) for job in waiting)]
        for job in closing:
            ready = self.ready[job]
            state.append(max(clock, ready) if ready < settled else max(free, ready))
        same = self.known.setdefault((*self.at, *self.sent), [])
        for other in same:
            if all(map(le, other, state)):
                return True
        if not must and len(same) < _MOST_KEPT:
            same.append(state)
        return False

    def by_urgency(self, clock: int, runs: list[tuple[int, int]]) -> list[tuple[int, int]]:
        """The same runs, that first after which most remains and for which the wait is short."""

        def urgency(run: tuple[int, int]) -> int:
            start, job = run
            return 3 * (start - clock) - self.stages[job][self.at[job]].rest_us

        return sorted(runs, key=urgency)

    def block_us(self, job: int) -> int:
        """Wire time of the next block of a job by itself."""
        stage, sent = self.stages[job][self.at[job]], self.sent[job]
        return stage.status_us + stage.sums[sent + 1] - stage.sums[sent]

    def send_run(
        self,
        job: int,
        start: int,
        coming: list[tuple[int, int]],
    ) -> None:
        """Send the rest of a run, or cut it for one of those that become ready meanwhile."""
        stage, sent = self.stages[job][self.at[job]], self.sent[job]
        size = len(stage.pieces)
        base = start + stage.status_us - stage.sums[sent]
        end = base + stage.sums[size]
        self.go_on(job, size, end)
        if stage.alone:
            self.go_on(job, size, end - stage.status_us, must=frozenset((job,)))
        for upto in range(sent + 1, size):
            cut = base + stage.sums[upto]
            by = cut + stage.sums[upto + 1] - stage.sums[upto]
            cut_for = frozenset(one for ready, one in coming if start < ready < by and one != job)
            if cut_for:
                self.go_on(job, upto, cut, must=cut_for)

    def go_on(self, job: int, upto: int, end: int, must: frozenset[int] = _ANY) -> None:
        """Send blocks of the job's run until so many are sent, look further, and take it back.

        When only the same job may be next, the wire idles until it is ready.
        """
        at, sent, ready = self.at[job], self.sent[job], self.ready[job]
        stage = self.stages[job][at]
        clock = end
        if upto == len(stage.pieces):
            self.at[job], self.sent[job] = at + 1, 0
            self.ready[job] = end + stage.lag_us
            if at + 1 == self.last[job]:
                self.ready[job] = max(self.ready[job], self.loaded[job])
            if job in must:
                clock = self.ready[job]
        else:
            self.sent[job], self.ready[job] = upto, end
        left = self.left
        self.left += stage.needs[upto] - stage.needs[sent]
        if clock + self.left < self.below:
            self.path.append(stage.pieces[sent:upto])
            self.visit(clock, must)
            self.path.pop()
        self.left = left
        self.at[job], self.sent[job], self.ready[job] = at, sent, ready
