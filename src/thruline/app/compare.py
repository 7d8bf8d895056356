"""What has to be done on the board when one revision of its document becomes another?"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from thruline.app.answer import Json, difference_json
from thruline.app.compare_words import details, task_words
from thruline.app.load import Opened
from thruline.app.mend import State, state_of
from thruline.compare.again import Trial, trials
from thruline.compare.facts import Facts, facts_of, without_exchanged
from thruline.compare.memory import held, to_hold
from thruline.compare.work import (
    Kind,
    Task,
    is_complete,
    needless,
    tasks_by_kind,
    work_order,
)
from thruline.papers.paper import Section, table_of
from thruline.proof.difference import Difference, difference
from thruline.proof.finding import Severity

MOST_DETAILS = 2
"""Details that stand in the row of their task; more are left to the work order."""
BOX = "[ ]"
TITLES = {
    "On the board": (Kind.TAKE_OFF, Kind.PUT_ON, Kind.MOVE),
    "Cables": (Kind.UNPLUG, Kind.REPLUG, Kind.MAKE, Kind.SOUND),
    "Set on the units": (Kind.SET,),
    "In the controller": (Kind.OUTPUTS, Kind.ENTER, Kind.CLEAR, Kind.PEDAL),
    "On paper": (Kind.SONGS,),
}
"""The parts of a work order, and what goes into each."""
CAUTION = (
    "Power off before anything is plugged or unplugged, and nothing of the mains is opened; local "
    "codes and licensed practice come first."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkOrder:
    """Two revisions: the facts of both boards, the work order, what to test, the proofs."""

    old: State
    new: State
    before: Facts
    after: Facts
    tasks: tuple[Task, ...]
    trials: tuple[Trial, ...]
    effect: Difference

    @property
    def is_complete(self) -> bool:
        """Whether the work order, carried out on the old board, gives the new one."""
        return is_complete(self.before, self.after, self.tasks)

    @property
    def is_least(self) -> bool:
        """Whether no task of it can be left out."""
        return not needless(self.before, self.after, self.tasks)

    @property
    def says(self) -> str:
        """The outcome in one sentence."""
        if not self.tasks:
            return "nothing has to be done on the board"
        count = len(self.tasks)
        tasks = "one task" if count == 1 else f"{count} tasks"
        files = f"{self.old.opened.document.file} to {self.new.opened.document.file}"
        end = (
            "proved: carried out they give the new board, and none can be left out"
            if self.is_complete and self.is_least
            else "not proved to be all that is needed"
        )
        return f"{tasks} from {files}; {end}"


def compare(old: Opened, new: Opened) -> WorkOrder:
    """Hold two revisions of a rig side by side."""
    first = state_of(old)
    return between(first, state_of(new, first.case))


def between(first: State, second: State) -> WorkOrder:
    """As `compare`, of two revisions that are proved already."""
    old, new = first.opened, second.opened
    same = _same_controller(old, new)
    routings = first.case.board.routing, second.case.board.routing
    memory = held(first.case) if same else {}
    after = facts_of(new.rig, routings[1], to_hold(first.case, second.case))
    before = facts_of(old.rig, routings[0], memory, is_entered=same)
    before = without_exchanged(before, after)
    tasks = work_order(before, after)
    return WorkOrder(
        old=first,
        new=second,
        before=before,
        after=after,
        tasks=tasks,
        trials=trials(first.case, second.case, tasks),
        effect=difference(first.proof, second.proof),
    )


def _same_controller(old: Opened, new: Opened) -> bool:
    """Whether the box that holds the presets stays; a new one holds nothing yet."""
    boxes = [(one.id, one.chart.id) for one in (old.rig.controller, new.rig.controller) if one]
    return len(boxes) == 2 and boxes[0] == boxes[1]


def by_hand(found: WorkOrder) -> Iterator[str]:
    """The tasks in one row each, with their details behind them."""
    rigs = found.old.opened.rig, found.new.opened.rig
    for kinds in TITLES.values():
        for task in (one for one in found.tasks if one.kind in kinds):
            says, more = task_words(task, *rigs), details(task, rigs[1])
            many = len(more) > MOST_DETAILS
            yield f"{says}: {'; '.join(more)}" if more and not many else says


def compare_sections(found: WorkOrder) -> Iterator[Section]:
    """The work order, what to test again, what the proof says now."""
    by_kind = tasks_by_kind(found.tasks)
    for title, kinds in TITLES.items():
        tasks = [task for kind in kinds for task in by_kind.get(kind, ())]
        if tasks:
            yield Section(
                title=title,
                table=table_of(("", "do", "in detail"), _rows(found, tasks)),
            )
    if found.trials:
        yield Section(
            title="Test again, and nothing else",
            table=table_of(
                ("", "what", "how"), ((BOX, one.look.value, one.says) for one in found.trials)
            ),
        )
    yield Section(title="Proof", says=tuple(_proof(found)), notes=(CAUTION,))


def _rows(found: WorkOrder, tasks: Sequence[Task]) -> Iterator[tuple[str, ...]]:
    for task in tasks:
        rows = details(task, found.new.opened.rig)
        first, *more = rows or [""]
        yield BOX, task_words(task, found.old.opened.rig, found.new.opened.rig), first
        yield from (("", "", row) for row in more)


def _proof(found: WorkOrder) -> Iterator[str]:
    counts = [
        f"{found.old.proof.count(one)} to {found.new.proof.count(one)} {one.value}s"
        for one in (Severity.FAULT, Severity.RISK)
    ]
    yield f"The proof goes from {' and '.join(counts)}."
    yield from (f"New: {one.says}." for one in found.effect.new)
    yield from (f"Gone: {one.says}." for one in found.effect.gone)


def compare_json(found: WorkOrder) -> Json:
    """The comparison for other programs."""
    rigs = found.old.opened.rig, found.new.opened.rig
    return {
        "says": found.says,
        "old": found.old.opened.document.file,
        "new": found.new.opened.document.file,
        "complete": found.is_complete,
        "least": found.is_least,
        "tasks": [
            {
                "do": task.kind.value,
                "says": task_words(task, *rigs),
                "details": details(task, rigs[1]),
                "changes": [
                    {
                        "part": change.key.part.value,
                        "whose": change.key.whose,
                        "which": change.key.which,
                        "before": change.before,
                        "after": change.after,
                    }
                    for change in task.changes
                ],
            }
            for task in found.tasks
        ],
        "tests": [
            {"what": one.look.value, "whose": one.whose, "says": one.says} for one in found.trials
        ],
        "effect": difference_json(found.effect),
    }
