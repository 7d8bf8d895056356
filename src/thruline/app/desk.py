"""The rig that is being worked on: a value, and what may be done with it.

Every step first looks at the file. What something else has written there becomes a step of its
own, and the edit is made on top of it; where both meet at one place, nothing is changed and the
person is asked. The file is written before the step is told of, so what was accepted is on disk.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from thruline.app.clash import Clashing, clashes_of
from thruline.app.load import open_again, open_rig
from thruline.app.mend import State, after_edits, state_of
from thruline.app.problem_words import problems_in_words
from thruline.base.edit import Edit
from thruline.base.errors import CannotUse, NotThere
from thruline.document.problems import BadDocument
from thruline.document.read import read
from thruline.workshop.face import (
    ChartsBeside,
    DocumentFile,
    HeardPlace,
    Revisions,
    SearchPlace,
    Shelf,
)
from thruline.workshop.history import (
    Cause,
    History,
    Revision,
    gone_back,
    gone_forward,
    set_aside,
    stepped,
)
from thruline.workshop.searches import Searches

LONGEST_NAME = 80


@dataclass(frozen=True, slots=True)
class Keeping:
    """Where a rig is kept: its file, its revisions, the shelves of its charts, and its search.

    `charts` are those beside the rig, which can be worked on. `heard` are its captures.
    `searches` are those for faults on all rigs; this one is called `rig` there.
    """

    file: DocumentFile
    revisions: Revisions
    shelves: tuple[Shelf, ...]
    charts: ChartsBeside
    search: SearchPlace
    searches: Searches
    heard: HeardPlace
    rig: str


@dataclass(frozen=True, slots=True)
class Unreadable:
    """What something else has written into the file, and why it cannot be used.

    `content` is None where it has taken the file away.
    """

    content: bytes | None
    why: str

    @property
    def says(self) -> str:
        """What has become of the file, and why that is of no use."""
        if self.content is None:
            return f"Something else has taken the document away: {self.why}"
        return "The file was changed by something else and cannot be used as it is now. " + self.why


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """An open rig: its state, where it stands among its revisions, and what the file held last.

    `unreadable` is set while the file holds something that cannot be used. `charts_lost` says of
    charts beside the rig, by id, why they cannot be used as they are now: what stands here is as it
    was with them.
    """

    state: State
    history: History
    content: bytes
    unreadable: Unreadable | None = None
    charts_lost: Mapping[str, str] = field(default_factory=dict)

    @property
    def text(self) -> str:
        """The document."""
        return self.content.decode()


def open_desk(keeping: Keeping) -> Desk:
    """Open a rig where it was left; what has become of the file meanwhile is a step.

    Raises CannotUse when the document cannot be used, WorldFailed when the world does not play
    along.
    """
    content = keeping.file.read()
    opened = open_rig(content, file=keeping.file.says, shelves=keeping.shelves)
    state = state_of(opened)
    history = keeping.revisions.recall()
    if history is None:
        history = History()
        first = Revision(number=1, cause=Cause.OPENED, says="Opened for the first time")
        keeping.revisions.keep(history, first, content.decode())
    elif keeping.revisions.text(history.now).encode() != content:
        history = stepped(history)
        keeping.revisions.keep(history, _outside(history.now), content.decode())
    return Desk(state=state, history=history, content=content)


def caught_up(desk: Desk, keeping: Keeping) -> Desk:
    """The desk with what something else has written into the file; itself when nothing has."""
    try:
        found = keeping.file.read()
    except NotThere as trouble:
        gone = Unreadable(None, trouble.says)
        return desk if desk.unreadable == gone else replace(desk, unreadable=gone)
    if found == desk.content:
        return replace(desk, unreadable=None) if desk.unreadable else desk
    if desk.unreadable is not None and found == desk.unreadable.content:
        return desk
    try:
        opened = open_again(desk.state.opened, found)
        state = state_of(opened, desk.state.case)
    except CannotUse as trouble:
        history = set_aside(desk.history)
        says = "Something else wrote this into the file, and it cannot be used"
        kept = Revision(number=history.last, cause=Cause.UNREADABLE, says=says)
        keeping.revisions.keep(history, kept, found.decode(errors="replace"))
        says = problems_in_words(trouble, has_rows=True) if isinstance(trouble, BadDocument) else ""
        return replace(desk, history=history, unreadable=Unreadable(found, says or trouble.says))
    history = stepped(desk.history)
    keeping.revisions.keep(history, _outside(history.now), found.decode())
    return _with(desk, state, history, content=found)


def edited(
    desk: Desk, edits: Sequence[Edit], keeping: Keeping, *, says: str, seen: int | None = None
) -> Desk:
    """The desk after edits. `seen` is the revision on which their author decided.

    Raises Clashing (a CannotUse) when they would overwrite what the author has not seen, CannotUse
    when they cannot be made; nothing is changed then.
    """
    desk = _usable(caught_up(desk, keeping))
    if seen is not None and seen != desk.history.now:
        old = read(keeping.revisions.text(seen), file=keeping.file.says)[1]
        clashes = clashes_of(old, desk.state.opened.document.data, edits)
        if clashes:
            raise Clashing(clashes)
    state = after_edits(desk.state, edits)
    text = state.opened.document.text
    if text.encode() == desk.content:
        return desk
    return _put_down(desk, state, keeping, cause=Cause.EDIT, says=says)


def undone(desk: Desk, keeping: Keeping) -> Desk:
    """The desk as it was one step before. Raises CannotUse when there is nothing to undo."""
    desk = _usable(caught_up(desk, keeping))
    return _moved(desk, gone_back(desk.history), keeping)


def redone(desk: Desk, keeping: Keeping) -> Desk:
    """The desk with the last undone step made again. Raises CannotUse when there is none."""
    desk = _usable(caught_up(desk, keeping))
    return _moved(desk, gone_forward(desk.history), keeping)


def restored(desk: Desk, number: int, keeping: Keeping) -> Desk:
    """The desk with an earlier revision on it, as a new step: this too can be undone.

    It also replaces a file that cannot be used; what that held is a revision.
    """
    desk = caught_up(desk, keeping)
    text = keeping.revisions.text(number)
    if text.encode() == (desk.unreadable.content if desk.unreadable else desk.content):
        return desk
    state = state_of(open_again(desk.state.opened, text), desk.state.case)
    says = f"Restored revision {number}"
    return _put_down(desk, state, keeping, cause=Cause.RESTORED, says=says)


def named(number: int, name: str, keeping: Keeping) -> None:
    """Call a revision something, "as delivered" for example. Raises CannotUse when it is long."""
    keeping.revisions.give_name(number, short_name(name))


def short_name(name: str) -> str:
    """The name of a revision without blanks too many. Raises CannotUse when it is long."""
    name = " ".join(name.split())
    if len(name) > LONGEST_NAME:
        raise CannotUse(f"a name of a revision has at most {LONGEST_NAME} letters")
    return name


def _usable(desk: Desk) -> Desk:
    if desk.unreadable is not None:
        raise CannotUse(f"{desk.unreadable.says}. Mend it there, or put back what is on the desk")
    return desk


def _put_down(desk: Desk, state: State, keeping: Keeping, *, cause: Cause, says: str) -> Desk:
    """A new state into the file, then among the revisions."""
    text = state.opened.document.text
    expected = desk.unreadable.content if desk.unreadable else desk.content
    keeping.file.write(text, expected=expected)
    history = stepped(desk.history)
    revision = Revision(number=history.now, cause=cause, says=says)
    keeping.revisions.keep(history, revision, text)
    return _with(desk, state, history, content=text.encode())


def _moved(desk: Desk, history: History, keeping: Keeping) -> Desk:
    """A revision that is there already onto the desk and into the file."""
    text = keeping.revisions.text(history.now)
    state = state_of(open_again(desk.state.opened, text), desk.state.case)
    keeping.file.write(text, expected=desk.content)
    keeping.revisions.keep(history)
    return _with(desk, state, history, content=text.encode())


def _with(desk: Desk, state: State, history: History, *, content: bytes) -> Desk:
    """The desk with another state on it, and nothing in the file that cannot be used."""
    return replace(desk, state=state, history=history, content=content, unreadable=None)


def _outside(number: int) -> Revision:
    return Revision(number=number, cause=Cause.OUTSIDE, says="The file was changed outside")
