"""A rig that travels inside a book: its document, and a shelf with the charts that it uses."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from thruline.base.errors import CannotUse
from thruline.workshop.face import Sheet

RIG_ENDING, CHART_ENDING = ".rig.toml", ".chart.toml"
_CHART = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*\.chart\.toml")


@dataclass(frozen=True, slots=True)
class InsideShelf:
    """The charts in a book, by their ids."""

    book: str
    charts: Mapping[str, bytes]

    def find(self, chart_id: str) -> Sheet | None:
        """The chart of this id; None when the book has none."""
        content = self.charts.get(chart_id)
        name = f"{self.book}/{chart_id}{CHART_ENDING}"
        return None if content is None else Sheet(name, content)

    def ids(self) -> tuple[str, ...]:
        """The ids of all charts in the book, sorted."""
        return tuple(sorted(self.charts))

    @property
    def says(self) -> str:
        """The shelf in words."""
        return "the charts in the book"


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """What a book holds: the document by its name, and its charts."""

    name: str
    document: bytes
    shelf: InsideShelf


def rig_inside(book: str, enclosed: Mapping[str, bytes]) -> Inside:
    """The rig among the files in a book. Raises CannotUse when there is none, or more than one."""
    names = [name for name in enclosed if name.endswith(RIG_ENDING)]
    if len(names) != 1:
        raise CannotUse(
            f"{book} has no rig inside: `thruline book` makes books that carry theirs along"
        )
    charts = {
        name.removesuffix(CHART_ENDING): content
        for name, content in enclosed.items()
        if _CHART.fullmatch(name)
    }
    return Inside(name=names[0], document=enclosed[names[0]], shelf=InsideShelf(book, charts))
