"""Shelves of charts, asked one after the other until one has the chart."""

from collections.abc import Sequence

from thruline.base.errors import CannotUse
from thruline.rig.nearest import nearest
from thruline.workshop.face import Sheet, Shelf


def find_chart(shelves: Sequence[Shelf], chart_id: str) -> Sheet | None:
    """The first chart of this id, shelf by shelf."""
    for shelf in shelves:
        sheet = shelf.find(chart_id)
        if sheet is not None:
            return sheet
    return None


def known_ids(shelves: Sequence[Shelf]) -> tuple[str, ...]:
    """Every chart id on any shelf, sorted."""
    return tuple(sorted({chart_id for shelf in shelves for chart_id in shelf.ids()}))


def sheet_called(shelves: Sequence[Shelf], chart_id: str) -> Sheet:
    """The chart of this id. Raises CannotUse with the nearest id when it is on no shelf."""
    ids = known_ids(shelves)
    sheet = find_chart(shelves, chart_id) if chart_id in ids else None
    if sheet is None:
        meant = nearest(chart_id, ids)
        hint = f'; did you mean "{meant}"?' if meant else "; `thruline chart list` shows them all"
        raise CannotUse(f'there is no chart "{chart_id}", and no file of that name{hint}')
    return sheet
