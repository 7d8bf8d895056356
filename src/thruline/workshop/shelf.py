"""Where a chart is looked up: beside the rig, in the workshop, among the samples, in this order."""

from collections.abc import Sequence

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
