"""What was worked out once and need not be again: pieces of composing and of receiving.

Cases of one rig share it from edit to edit. Everything in it follows from its key alone, so it
never has to be told of a change; it only grows, and starts anew when it has grown large. Units and
goals are known by identity (an edit keeps the objects of all that it leaves alone), and the key's
objects are kept with the answer so that no identity is used twice.
"""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, TypeAlias

from thruline.compose.goals import Wanted, wanted_from
from thruline.compose.jobs import Effort, Job, Ordered
from thruline.compose.order import best_order
from thruline.compose.preset import MakeJob, Sender, job_for
from thruline.rig.preset import Goal
from thruline.rig.sweep import Move
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig
from thruline.sameness.columns import Layout, layout_of, same_columns
from thruline.sameness.strokes import Effect, effect_of
from thruline.timing.receive import Listener, Reception
from thruline.timing.run import Came, Heard, hear
from thruline.timing.sending import Sending
from thruline.timing.travel import Travel

MOST = 100_000
"""Answers of one kind that are kept; a rig of 16 units and 128 presets has some 2,000."""

_JobKey: TypeAlias = tuple[int, int, Travel, int]


class Kept:
    """Answers by what they follow from."""

    def __init__(self) -> None:
        """Nothing kept yet."""
        self._wanted: dict[tuple[int, int], tuple[Unit, Goal, Wanted]] = {}
        self._jobs: dict[_JobKey, tuple[Wanted, Job]] = {}
        self._same_job: dict[Job, Job] = {}
        self._orders: dict[tuple[Effort, int, tuple[int, ...]], Ordered] = {}
        self._heard: dict[int, tuple[Unit, dict[Came, tuple[tuple[Heard, ...], Reception]]]] = {}
        self._effects: dict[tuple[int, int, int, bool], tuple[Unit, Move, Effect]] = {}
        self._later: dict[object, Mapping[str, int]] = {}
        self._numbers: dict[object, int] = {}
        self._held: dict[int, object] = {}
        self._layout: tuple[Rig, Layout] | None = None

    def trim(self) -> None:
        """Start anew when too much is kept.

        All at once, since jobs are known by identity; but for the numbers, which boards remember,
        and the units by which some of those are known.
        """
        kinds: tuple[dict[Any, Any], ...] = (
            self._wanted, self._jobs, self._same_job, self._orders, self._heard, self._effects,
            self._later,
        )  # fmt: skip
        heard = sum(len(answers) for _, answers in self._heard.values())
        if max(heard, *(len(kind) for kind in kinds)) > MOST:
            for kind in kinds:
                kind.clear()

    def want(self, unit: Unit, goal: Goal) -> Wanted:
        """As `wanted_from`."""
        key = (id(unit), id(goal))
        known = self._wanted.get(key)
        if known is None:
            known = self._wanted[key] = (unit, goal, wanted_from(unit, goal))
        return known[2]

    def jobs_of(self, sender: Sender) -> MakeJob:
        """As `job_for` for this sender; equal jobs are one object."""
        number = self.number_of(sender)

        def job(wanted: Wanted, /, *, travel: Travel, later: int) -> Job:
            key = (id(wanted), number, travel, later)
            known = self._jobs.get(key)
            if known is None:
                made = job_for(wanted, sender=sender, travel=travel, later=later)
                known = self._jobs[key] = (wanted, self._same_job.setdefault(made, made))
            return known[1]

        return job

    def order(self, jobs: tuple[Job, ...], sender: Sender, effort: Effort) -> Ordered:
        """As `best_order`, for jobs that `jobs_of` gave."""
        key = (effort, self.number_of(sender), tuple([id(job) for job in jobs]))
        known = self._orders.get(key)
        if known is None:
            known = self._orders[key] = best_order(jobs, sender.means, effort=effort)
        return known

    def hear_all(
        self, listener: Listener, came: Sequence[Came], sendings: Sequence[Sending]
    ) -> list[tuple[tuple[Heard, ...], Reception]]:
        """As `hear_all`."""
        known = self._heard.setdefault(id(listener.unit), (listener.unit, {}))[1]
        found = []
        for each, sending in zip(came, sendings, strict=True):
            answer = known.get(each)
            if answer is None:
                answer = known[each] = hear(listener, each, sending)
            found.append(answer)
        return found

    def effect(self, meant: Unit, move: Move, listener: Listener, /, *, certain: bool) -> Effect:
        """As `effect_of`."""
        key = (id(meant), id(move), id(listener.unit), certain)
        known = self._effects.get(key)
        if known is None:
            made = effect_of(meant, move, listener, certain=certain)
            known = self._effects[key] = (meant, move, made)
        return known[2]

    def layout(self, rig: Rig) -> Layout:
        """As `layout_of`; the very same one as long as units and charts are the same."""
        if self._layout is None or not same_columns(self._layout[0], rig):
            self._layout = (rig, layout_of(rig))
        return self._layout[1]

    def number_of(self, thing: object) -> int:
        """A small number for a thing; the same for equal things."""
        return self._numbers.setdefault(thing, len(self._numbers))

    def hold(self, things: Iterable[object]) -> None:
        """Keep things, so that no identity by which something is known is used twice."""
        self._held.update((id(thing), thing) for thing in things)

    def later_for(self, key: object) -> Mapping[str, int] | None:
        """Waits that were found before, for the same jobs on the same lines."""
        return self._later.get(key)

    def note_later(self, key: object, later: Mapping[str, int]) -> None:
        """Remember the waits that were found."""
        self._later[key] = later
