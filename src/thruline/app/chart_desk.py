"""Charts beside a rig under work: copied there, begun, and filled in fact by fact.

A chart has a history of its own, since several rigs of a folder may use it. What is shipped with
thruline, and what stands in the workshop, is only read here; a copy of it can be worked on. The
rig is proved with what a chart is about to be before anything is written, so that nothing is
written with which the rig could not be opened again.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import NamedTuple

from thruline.app.chart import look_at
from thruline.app.chart_copy import beginning, copy_of, refuse_unusable
from thruline.app.clash import Clashing, clashes_of
from thruline.app.desk import Desk, Keeping, caught_up, short_name
from thruline.app.edit_words import edits_in_words
from thruline.app.load import open_chart, open_rig
from thruline.app.mend import state_of
from thruline.base.address import at
from thruline.base.edit import Edit
from thruline.base.errors import CannotUse
from thruline.document.change import apply
from thruline.document.read import read
from thruline.workshop.face import DocumentFile, Revisions, Sheet
from thruline.workshop.history import (
    Cause,
    History,
    Revision,
    gone_back,
    gone_forward,
    set_aside,
    stepped,
)
from thruline.workshop.shelf import find_chart, sheet_called


class Standing(NamedTuple):
    """Where a chart stands among its revisions, and the one that is not kept yet.

    `is_lost` tells that something else has written into the file what cannot be used.
    """

    history: History
    unkept: Revision | None = None
    is_lost: bool = False

    @property
    def can_undo(self) -> bool:
        """Whether there is a step to go back."""
        return self.is_lost or bool(self.history.undo)


@dataclass(frozen=True, slots=True)
class _Ahead:
    """A shelf with the one chart that is about to be written."""

    chart_id: str
    sheet: Sheet
    says: str = "the chart under work"

    def find(self, chart_id: str) -> Sheet | None:
        return self.sheet if chart_id == self.chart_id else None

    def ids(self) -> tuple[str, ...]:
        return (self.chart_id,)


def chart_copied(desk: Desk, keeping: Keeping, source: str, *, new: str) -> Desk:
    """The desk with a copy of a chart beside its rig, under an id of its own or the same.

    Raises CannotUse when there is no such chart, or another one of the new id on any shelf.
    """
    text = copy_of(sheet_called(keeping.shelves, source), new)
    if new != source:
        _refuse_known(keeping, new)
    return _laid(desk, keeping, new, text=text)


def chart_made(desk: Desk, keeping: Keeping, new: str, *, head: Mapping[str, str]) -> Desk:
    """The desk with a new chart beside its rig that holds maker, model and kind, and no more.

    Raises CannotUse when one of these is not given, or there is a chart of the id on any shelf.
    """
    text = beginning(new, head)
    _refuse_known(keeping, new)
    return _laid(desk, keeping, new, text=text)


def _refuse_known(keeping: Keeping, new: str) -> None:
    """A chart beside the rig comes before one of the same id elsewhere, whatever units mean."""
    for shelf in keeping.shelves:
        if shelf.find(new) is not None:
            raise CannotUse(
                f'there is a chart "{new}" already, in {shelf.says}: units that name it would get '
                "another one; give another id, or copy that one under its own id to change it"
            )


def _laid(desk: Desk, keeping: Keeping, new: str, *, text: str) -> Desk:
    if new in keeping.charts.ids():
        raise CannotUse(f'there is a chart "{new}" beside the rig already; give another id')
    after = _with_chart(caught_up(desk, keeping), keeping, new, text=text)
    keeping.charts.lay(new, text)
    return after


def chart_taken_away(desk: Desk, keeping: Keeping, chart_id: str) -> Desk:
    """The desk without a chart beside its rig; units take the one of the same id elsewhere.

    Raises CannotUse when it is not beside the rig, or a rig of the folder uses it and it stands
    nowhere else.
    """
    file, revisions = _place(keeping, chart_id)
    other = next(
        (
            found
            for shelf in keeping.shelves
            if (found := shelf.find(chart_id)) is not None and found.file != file.says
        ),
        None,
    )
    users = () if other else keeping.charts.users(chart_id)
    if users:
        raise CannotUse(
            f'"{chart_id}" stands nowhere else, and {" and ".join(users)} may use it; give their '
            "units another chart first"
        )
    after = caught_up(desk, keeping)
    if other and chart_id in after.state.opened.charts:
        after = _with_sheet(after, keeping, chart_id, sheet=other)
    _kept_so_far(file, revisions, file.read())
    keeping.charts.take_away(chart_id)
    return replace(after)


def chart_edited(
    desk: Desk,
    keeping: Keeping,
    chart_id: str,
    *,
    make: Callable[[Mapping[str, object]], Edit],
    seen: int | None = None,
) -> Desk:
    """The desk after an edit of a chart beside its rig; the rig is proved again if it uses it.

    `seen` is the revision of the chart on which its author decided. Raises Clashing (a CannotUse)
    when the edit would overwrite what the author has not seen, CannotUse when the chart is only to
    be read, or could not be used after the edit.
    """
    file, revisions = _place(keeping, chart_id)
    content = file.read()
    text, data = read(content, file=file.says)
    edit = make(data)
    if seen is not None and seen != standing(file, revisions, content).history.now:
        old = read(revisions.text(seen), file=file.says)[1]
        clashes = clashes_of(old, data, [edit])
        if clashes:
            raise Clashing(clashes)
    if edit.address == at("chart").child("id"):
        raise CannotUse("a chart is found by its id: copy it under another id instead")
    after = apply(text, [edit], file=file.says)
    says = edits_in_words([edit], data)
    return _put_down(desk, keeping, chart_id, text=after, cause=Cause.EDIT, says=says)


def chart_moved(desk: Desk, keeping: Keeping, chart_id: str, *, is_back: bool) -> Desk:
    """The desk after undoing (`is_back`) or redoing a step of a chart.

    Where something else has written what cannot be used, undoing puts back what stood before.
    Raises CannotUse when there is no such step.
    """
    file, revisions = _place(keeping, chart_id)
    content = file.read()
    stood = standing(file, revisions, content)
    history = _kept_so_far(file, revisions, content)
    if is_back and not stood.is_lost:
        history = gone_back(history)
    elif not is_back:
        history = gone_forward(history)
    text = revisions.text(history.now)
    proved = _with_chart(caught_up(desk, keeping), keeping, chart_id, text=text)
    file.write(text, expected=content)
    revisions.keep(history)
    return proved


def chart_restored(desk: Desk, keeping: Keeping, chart_id: str, *, number: int) -> Desk:
    """The desk with an earlier revision of a chart in its place, as a new step.

    Raises CannotUse when the chart is only to be read, there is no such revision, or it cannot be
    used.
    """
    text = _place(keeping, chart_id)[1].text(number)
    says = f"Restored revision {number}"
    return _put_down(desk, keeping, chart_id, text=text, cause=Cause.RESTORED, says=says)


def chart_named(keeping: Keeping, chart_id: str, number: int, *, name: str) -> None:
    """Call a revision of a chart something. Raises CannotUse when the name is long."""
    _place(keeping, chart_id)[1].give_name(number, short_name(name))


def chart_as_before(desk: Desk, keeping: Keeping, chart_id: str, *, number: int) -> Desk:
    """The desk as it would be with an earlier revision of a chart; nothing is kept.

    Raises CannotUse when there is no such revision, or the rig cannot be opened with it.
    """
    text = _place(keeping, chart_id)[1].text(number)
    return _with_chart(desk, keeping, chart_id, text=text)


def _put_down(
    desk: Desk, keeping: Keeping, chart_id: str, *, text: str, cause: Cause, says: str
) -> Desk:
    """A new text into the file of a chart, then among its revisions; itself if it is the same."""
    file, revisions = _place(keeping, chart_id)
    content = file.read()
    refuse_unusable(text, file.says)
    if text.encode() == content:
        return desk
    proved = _with_chart(caught_up(desk, keeping), keeping, chart_id, text=text)
    history = stepped(_kept_so_far(file, revisions, content))
    file.write(text, expected=content)
    revisions.keep(history, Revision(number=history.now, cause=cause, says=says), text)
    return proved


def charts_caught_up(desk: Desk, keeping: Keeping) -> Desk:
    """The desk with the charts beside its rig as they are by now; itself when none has changed.

    Another rig of the folder may have been open when one of them was edited. A chart that is gone
    is looked for on the other shelves. One that cannot be used as it is now, or is nowhere, stays
    on the desk as it was, and the desk says so.
    """
    beside, lost = keeping.charts.ids(), dict[str, str]()
    for chart_id, known in desk.state.opened.sheets.items():
        try:
            sheet = _sheet_by_now(keeping, chart_id, known, is_beside=chart_id in beside)
            if sheet.content != known.content:
                desk = _with_sheet(desk, keeping, chart_id, sheet=sheet)
        except CannotUse as trouble:
            lost[chart_id] = trouble.says
    return desk if lost == desk.charts_lost else replace(desk, charts_lost=lost)


def _sheet_by_now(keeping: Keeping, chart_id: str, known: Sheet, *, is_beside: bool) -> Sheet:
    """The sheet of a chart that the rig uses, as it is by now. Raises CannotUse when it is gone."""
    file = keeping.charts.kept(chart_id)[0]
    if is_beside:
        return Sheet(file.says, file.read().decode(errors="replace").encode())
    if known.file != file.says:
        return known
    sheet = find_chart(keeping.shelves, chart_id)
    if sheet is None:
        raise CannotUse("its file is gone, and it stands nowhere else")
    return sheet


def standing(file: DocumentFile, revisions: Revisions, content: bytes) -> Standing:
    """Where a chart stands among its revisions; what has become of its file is a step.

    Nothing is kept by asking.
    """
    text, history = content.decode(errors="replace"), revisions.recall()
    is_lost = _is_unusable(file, content)
    if history is None:
        opened = Revision(number=1, cause=Cause.OPENED, says="Opened for the first time")
        return Standing(History(), opened)
    if revisions.text(history.now) == text:
        return Standing(history)
    if not is_lost:
        history = stepped(history)
        says = "The file was changed outside"
        return Standing(history, Revision(number=history.now, cause=Cause.OUTSIDE, says=says))
    if revisions.text(history.last) == text:
        return Standing(history, is_lost=True)
    history = set_aside(history)
    says = "Something else wrote this into the file, and it cannot be used"
    kept = Revision(number=history.last, cause=Cause.UNREADABLE, says=says)
    return Standing(history, kept, is_lost=True)


def _is_unusable(file: DocumentFile, content: bytes) -> bool:
    try:
        return bool(look_at(Sheet(file.says, content)).problems)
    except CannotUse:  # it is no chart at all, but a rig
        return True


def _kept_so_far(file: DocumentFile, revisions: Revisions, content: bytes) -> History:
    """Where a chart stands, when what has become of its file is kept."""
    stood = standing(file, revisions, content)
    if stood.unkept is not None:
        revisions.keep(stood.history, stood.unkept, content.decode(errors="replace"))
    return stood.history


def _place(keeping: Keeping, chart_id: str) -> tuple[DocumentFile, Revisions]:
    if chart_id not in keeping.charts.ids():
        raise CannotUse(f'"{chart_id}" is only read here: copy it beside the rig, then change it')
    return keeping.charts.kept(chart_id)


def _with_chart(desk: Desk, keeping: Keeping, chart_id: str, *, text: str) -> Desk:
    """The rig proved with a chart as it is about to be, if that makes a difference to it."""
    known = desk.state.opened
    if chart_id not in known.charts:
        return replace(desk)
    sheet = Sheet(keeping.charts.kept(chart_id)[0].says, text.encode())
    return _with_sheet(desk, keeping, chart_id, sheet=sheet)


def _with_sheet(desk: Desk, keeping: Keeping, chart_id: str, *, sheet: Sheet) -> Desk:
    """The rig proved with another sheet for one of its charts."""
    known = desk.state.opened
    if open_chart(sheet, called=chart_id) == known.charts[chart_id]:
        opened = replace(known, sheets={**known.sheets, chart_id: sheet})
        return replace(desk, state=replace(desk.state, opened=opened))
    shelves = (_Ahead(chart_id, sheet), *keeping.shelves)
    opened = open_rig(desk.content, file=known.document.file, shelves=shelves)
    return replace(desk, state=state_of(replace(opened, shelves=keeping.shelves)))
