"""A work order between two boards: tasks, each with the facts that it changes.

It is proved by carrying it out: the tasks, done on the facts of the old board, must give those of
the new one, and no task may be one that changes nothing.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from thruline.compare.facts import Fact, Facts, Key, Part


class Kind(StrEnum):
    """What is done, in the order in which it is best done."""

    TAKE_OFF = "take off"
    PUT_ON = "put on"
    MOVE = "move"
    UNPLUG = "unplug"
    REPLUG = "replug"
    MAKE = "make"
    SOUND = "sound"
    SET = "set"
    OUTPUTS = "outputs"
    ENTER = "enter"
    CLEAR = "clear"
    PEDAL = "pedal"
    SONGS = "songs"


OF_A_UNIT = (Part.PLACE, Part.CHANNEL, Part.SETTING, Part.OUTPUT)
"""What goes with its unit when that is taken off or exchanged."""


class Change(NamedTuple):
    """One fact before and after; None where there is none."""

    key: Key
    before: Fact
    after: Fact


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """One thing to do, and the facts that it changes."""

    kind: Kind
    changes: tuple[Change, ...]

    @property
    def whose(self) -> str:
        """The unit, socket or preset that it is about."""
        return self.changes[0].key.whose


def work_order(old: Facts, new: Facts) -> tuple[Task, ...]:
    """What has to be done, and nothing else, in the order in which it is best done."""
    changes = list(_changes(old, new))
    tasks = [*_replugged(changes)]
    done = {change.key for task in tasks for change in task.changes}
    boxes = {change.key.whose: change for change in changes if change.key.part is Part.UNIT}
    groups: dict[tuple[Kind, str, str], list[Change]] = {}
    for change in changes:
        if change.key not in done:
            owner = boxes.get(change.key.whose) if change.key.part in OF_A_UNIT else None
            goes = owner is not None and change.after is None
            groups.setdefault(_group(owner if owner and goes else change), []).append(change)
    tasks += [Task(kind=key[0], changes=tuple(those)) for key, those in groups.items()]
    order = {kind: place for place, kind in enumerate(Kind)}
    return tuple(sorted(tasks, key=lambda task: order[task.kind]))


def carried_out(facts: Facts, tasks: Iterable[Task]) -> dict[Key, Fact]:
    """The facts after tasks are done."""
    after = dict(facts)
    for change in (one for task in tasks for one in task.changes):
        if change.after is None:
            after.pop(change.key, None)
        else:
            after[change.key] = change.after
    return after


def is_complete(old: Facts, new: Facts, tasks: Sequence[Task]) -> bool:
    """Whether the tasks lead from the old board to the new one."""
    return carried_out(old, tasks) == dict(new)


def needless(old: Facts, new: Facts, tasks: Sequence[Task]) -> tuple[Task, ...]:
    """Tasks without which the new board would come about as well; there should be none."""
    return tuple(
        task
        for place, task in enumerate(tasks)
        if carried_out(old, [*tasks[:place], *tasks[place + 1 :]]) == dict(new)
    )


def _changes(old: Facts, new: Facts) -> Iterator[Change]:
    for key in dict.fromkeys((*old, *new)):
        before, after = old.get(key), new.get(key)
        if before != after:
            yield Change(key, before, after)


def _group(change: Change) -> tuple[Kind, str, str]:
    """Changes of one group are one task: all that is set on one unit, each preset by itself."""
    key, gone = change.key, change.after is None
    match key.part:
        case Part.UNIT:
            return (Kind.TAKE_OFF if gone else Kind.PUT_ON), key.whose, ""
        case Part.PLACE:
            return Kind.MOVE, key.whose, ""
        case Part.CABLE:
            return (Kind.UNPLUG if gone else Kind.MAKE), key.whose, key.which
        case Part.SOUND:
            return Kind.SOUND, "", ""
        case Part.CHANNEL | Part.SETTING:
            return Kind.SET, key.whose, ""
        case Part.OUTPUT:
            return Kind.OUTPUTS, "", ""
        case Part.MEMORY:
            return (Kind.CLEAR if gone else Kind.ENTER), key.whose, ""
        case Part.PEDAL:
            return Kind.PEDAL, key.whose, str((change.before, change.after))
        case Part.SET:
            return Kind.SONGS, "", ""


def _replugged(changes: Sequence[Change]) -> Iterator[Task]:
    """Cables that are the same and only plugged in elsewhere."""
    cables = [one for one in changes if one.key.part is Part.CABLE]
    free = [one for one in cables if one.before is None]
    for gone in (one for one in cables if one.after is None):
        twins = [one for one in free if one.after == gone.before]
        near = [one for one in twins if _shares_an_end(one.key, gone.key)]
        for again in (near or twins)[:1]:
            free.remove(again)
            yield Task(kind=Kind.REPLUG, changes=(gone, again))


def _shares_an_end(one: Key, other: Key) -> bool:
    return one.whose == other.whose or one.which == other.which


def tasks_by_kind(tasks: Iterable[Task]) -> Mapping[Kind, list[Task]]:
    """Tasks by what is done."""
    found: dict[Kind, list[Task]] = {}
    for task in tasks:
        found.setdefault(task.kind, []).append(task)
    return found
