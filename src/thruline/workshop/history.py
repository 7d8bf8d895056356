"""Which revision of a rig is on the desk, which lie behind it, and which can be gone forward to.

Revisions are numbers; what each of them holds is the store's business. Nothing is ever forgotten
here but the way to it: a state that can no longer be reached by undoing can still be restored.
"""

from dataclasses import dataclass, replace
from enum import StrEnum

from thruline.base.errors import CannotUse

MOST_STEPS = 2000
"""How far back undoing goes; older revisions can still be looked at and restored."""


class KeptElsewhere(CannotUse):
    """Another workbench has the same rig open and has changed it."""


class Cause(StrEnum):
    """What made a revision."""

    OPENED = "opened"
    EDIT = "edit"
    OUTSIDE = "outside"
    """Something else wrote the file."""
    UNREADABLE = "unreadable"
    """Something else wrote the file, and it could not be used; kept so that it is not lost."""
    RESTORED = "restored"


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision:
    """One saved state: its number, what made it, in words, and when (as ISO 8601 writes it)."""

    number: int
    cause: Cause
    says: str
    at: str = ""
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """The revision on the desk, the ones behind it, the ones undone, and the last number given."""

    now: int = 1
    undo: tuple[int, ...] = ()
    redo: tuple[int, ...] = ()
    last: int = 1


def stepped(history: History) -> History:
    """A new revision on the desk; what was undone can no longer be gone forward to."""
    number = history.last + 1
    behind = (*history.undo, history.now)[-MOST_STEPS:]
    return History(now=number, undo=behind, redo=(), last=number)


def set_aside(history: History) -> History:
    """A new revision that is kept and does not come onto the desk."""
    return replace(history, last=history.last + 1)


def gone_back(history: History) -> History:
    """The revision before. Raises CannotUse when there is none."""
    if not history.undo:
        raise CannotUse("there is nothing to undo: this is how it was first opened")
    *behind, number = history.undo
    return replace(history, now=number, undo=tuple(behind), redo=(*history.redo, history.now))


def gone_forward(history: History) -> History:
    """The revision that was undone last. Raises CannotUse when there is none."""
    if not history.redo:
        raise CannotUse("there is nothing to redo: nothing was undone since the last change")
    *ahead, number = history.redo
    return replace(history, now=number, undo=(*history.undo, history.now), redo=tuple(ahead))
