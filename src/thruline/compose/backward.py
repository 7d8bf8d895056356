"""The order that ends earliest, searched from the end of the sending towards its start.

Turned round in time a unit first has its tail, then its controls, then its settle, then its head,
and after its head nothing more. So nothing waits for a head, only the controls have to be put in
order, and the many orders of the heads, which make a search in the order of the wire hopeless,
fall away. What is left is narrowed by these rules; each follows by swapping two neighbours, or by
moving a piece into a gap, without loss:

- a first run of a job (its head, or its first controls when it has none) comes before another run
  only if that was not ready when the first one started; else first runs go as they get ready;
- a run is cut only for a run that was not ready when it started;
- the wire idles only if no ready piece fits into the gap.

Branches are given up when Jackson's bound says so, or when the same pieces were sent before, in no
more time and with every run ready no later. All words here look from the end: "ready", "next" and
"sent" are turned round, too.
"""

from dataclasses import dataclass
from operator import le

from thruline.base.measures import BYTE_US
from thruline.compose.bound import Piece, preemptive
from thruline.compose.stages import stages_of
from thruline.compose.windows import Windows, open_windows, squeezed
from thruline.compose.wire import Wire

MOST_PIECES = 240
"""Beyond this the search might go deeper than Python's stack allows: three calls a piece."""

_ANY: frozenset[int] = frozenset()
"""Where the next job is free to choose."""

_STRAIGHT = 200
"""Steps before the search narrows its window: enough for nine presets in ten."""

_MOST_KEPT = 30
"""How many states of the same pieces are remembered: more are seldom met again."""


@dataclass(frozen=True, slots=True)
class Found:
    """What the search found."""

    sequence: list[int] | None
    """An order that ends earlier than asked, or None."""
    end_us: int
    """When it ends, as the search counts; what was asked when there is none."""
    bound_us: int
    """Nothing ends before this; 0 when the search was cut short."""
    nodes: int
    """Steps not used."""


def search(windows: Windows, *, below_us: int, nodes: int) -> Found:
    """Look for an order that ends before `below_us`, in at most so many steps.

    The wire is that of a controller that can pause at will, with `MOST_PIECES` at most.
    """
    looking = _Search(windows, below_us, nodes)
    looking.visit(0, _ANY)
    sequence = None
    if looking.best is not None:
        sequence = [piece for run in looking.best for piece in run][::-1]
    bound_us = looking.below if looking.nodes >= 0 else 0
    return Found(sequence, looking.below, bound_us, max(0, looking.nodes))


def search_wider(wire: Wire, *, below_us: int, floor_us: int, nodes: int) -> Found:
    """The same, in a way that is better when there is much between the bound and what is known.

    First straight on; then in a window above `floor_us`, a bound that is known, which is made
    twice as wide as long as nothing is in it. In a narrow window less has to be looked at, and
    what is below it is proved to be empty.
    """
    if len(wire.job) > MOST_PIECES:
        return Found(None, below_us, floor_us, 0)
    straight = min(_STRAIGHT, nodes)
    found = search(open_windows(wire), below_us=below_us, nodes=straight)
    sequence, end_us, bound_us = found.sequence, found.end_us, max(found.bound_us, floor_us)
    nodes, width_us = nodes - straight, BYTE_US
    while bound_us < end_us and nodes > 0:
        window_us = min(floor_us + width_us + 1, end_us)
        tight = squeezed(wire, below_us=window_us)
        if tight is None:
            found = Found(None, window_us, window_us, nodes)
        else:
            found = search(tight, below_us=window_us, nodes=nodes)
        if found.sequence:
            sequence, end_us = found.sequence, found.end_us
        nodes, width_us = found.nodes, 2 * width_us
        bound_us = max(bound_us, found.bound_us)
    return Found(sequence, end_us, bound_us, nodes)


class _Search:
    """One search: what is sent so far, looked at from the end, and the best order yet."""

    def __init__(self, windows: Windows, below: int, nodes: int) -> None:
        wire = windows.wire
        self.below = below
        self.nodes = nodes
        self.best: list[tuple[int, ...]] | None = None
        jobs = [j for j in range(len(wire.first) - 1) if wire.first[j] < wire.first[j + 1]]
        self.stages = [stages_of(windows, job) for job in jobs]
        self.last = [len(stages) - 1 for stages in self.stages]
        self.held = [wire.means.programs_first and wire.block[wire.first[job]] < 0 for job in jobs]
        self.at = [0] * len(jobs)
        self.sent = [0] * len(jobs)
        self.ready = [stages[0].soonest_us for stages in self.stages]
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
            self._go_on(job, upto, end, must=must)

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
                stage = stages[at]
                start = max(start, stage.soonest_us)
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
                need = stage.needs[self.sent[job]] - stage.idle_us
                free = min(free, max(clock, self.ready[job]) + need)
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
        self._go_on(job, size, end)
        if stage.alone:
            self._go_on(job, size, end - stage.status_us, must=frozenset((job,)))
        for upto in range(sent + 1, size):
            if self.nodes < 0:
                return
            cut = base + stage.sums[upto]
            by = cut + stage.sums[upto + 1] - stage.sums[upto]
            cut_for = frozenset(one for ready, one in coming if start < ready < by and one != job)
            if cut_for:
                self._go_on(job, upto, cut, must=cut_for)

    def _go_on(self, job: int, upto: int, end: int, must: frozenset[int] = _ANY) -> None:
        """Send blocks of the job's run until so many are sent, look further, and take it back.

        When only the same job may be next, the wire idles until it is ready.
        """
        if self.nodes < 0:
            return
        at, sent, ready = self.at[job], self.sent[job], self.ready[job]
        stage = self.stages[job][at]
        clock = end
        if upto == len(stage.pieces):
            self.at[job], self.sent[job] = at + 1, 0
            self.ready[job] = end + stage.lag_us
            if at < self.last[job]:
                soonest = self.stages[job][at + 1].soonest_us
                self.ready[job] = max(self.ready[job], soonest)
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
