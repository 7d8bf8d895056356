"""A book as plain data for the typesetter: every text with places to break, every table measured.

Measures are points. The template knows how things look, and computes nothing.
"""

import json
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from thruline.papers.book import Block, Book, Drawing, Large, Part
from thruline.papers.book_columns import INSET, breakable, column_points, height_of
from thruline.papers.labels import Labels, qr_svg
from thruline.papers.paper import Section, See, Table
from thruline.papers.settings_sheet import BOX

MM = 72 / 25.4
PAPERS: Mapping[str, tuple[float, float]] = MappingProxyType(
    {"a4": (210 * MM, 297 * MM), "letter": (612.0, 792.0)}
)
"""Width and height of the papers."""
MARGIN, HEAD, FOOT = 17 * MM, 20 * MM, 17 * MM
BODY, SMALL, TITLE, PART, SECTION = 10.0, 8.4, 30.0, 20.0, 12.5
LARGE, LARGE_ROW, LARGE_NUMBER = 40.0, 26.0, 92.0
LABEL, CODE = 58 * MM, 17 * MM
WHOLE = 0.45
"""A table up to this share of a page stays on one page."""
CAPTION = 20.0
"""Room above a drawing, beside what is said there."""

Data = dict[str, Any]


def book_data(book: Book, paper: str) -> str:
    """The whole book on this paper, as JSON."""
    width, height = PAPERS[paper]
    laid = _Laid(width, height)
    data = {
        "width": width,
        "height": height,
        "margin": [MARGIN, HEAD, FOOT],
        "sizes": [BODY, SMALL, TITLE, PART, SECTION],
        "title": _plain(book.title),
        "shown": breakable(_plain(book.title), laid.width, size=TITLE),
        "head": breakable(_plain(book.title), laid.width * 0.78, size=SMALL),
        "about": laid.said(book.about),
        "date": book.date,
        "version": book.version,
        "facts": [[breakable(_plain(one), laid.width * 0.7, size=BODY) for one in pair]
                  for pair in book.facts],
        "parts": [laid.part(one) for one in book.parts],
        "enclosed": [
            {"name": one.name, "kind": one.kind, "says": one.says, "place": place}
            for place, one in enumerate(book.enclosed)
        ],
    }  # fmt: skip
    return json.dumps(data, ensure_ascii=False)


def _plain(text: str) -> str:
    """Text without control characters, which no page can show."""
    return "".join(letter if letter.isprintable() else " " for letter in text)


class _Laid:
    """Room on the page, and things measured for it."""

    def __init__(self, width: float, height: float) -> None:
        self.width = width - 2 * MARGIN
        self._page = height - HEAD - FOOT
        self._upright = (self.width, height - HEAD - FOOT)
        self._turned = (height - 2 * MARGIN, width - HEAD - FOOT)

    def said(self, text: str, size: float = BODY) -> str:
        return breakable(_plain(text), self.width, size=size)

    def part(self, part: Part) -> Data:
        return {
            "name": part.name,
            "title": self.said(part.title, PART),
            "plain": breakable(_plain(part.title), self.width * 0.7, size=BODY),
            "says": [self.said(one) for one in part.says],
            "blocks": [self.block(one) for one in part.blocks],
        }

    def block(self, block: Block) -> Data:
        match block:
            case Section():
                return self.section(block)
            case Drawing():
                return self.drawing(block)
            case Large():
                return self.large(block)
            case Labels():
                return self.labels(block)

    def section(self, section: Section) -> Data:
        return {
            "is": "section",
            "about": section.about,
            "title": self.said(section.title, SECTION),
            "says": [self.said(one) for one in section.says],
            "notes": [self.said(one, SMALL) for one in section.notes],
            "table": None if section.table is None else self.table(section.table),
        }

    def table(self, table: Table) -> Data:
        head = tuple(map(_plain, table.head))
        rows = [[one if isinstance(one, See) else _plain(one) for one in row] for row in table.rows]
        widths = column_points([head, *rows], self.width, size=SMALL, ticks=BOX)
        rooms = [one - 2 * INSET for one in widths]
        return {
            "widths": widths,
            "whole": height_of([head, *rows], widths, size=SMALL) < self._page * WHOLE,
            "head": [
                breakable(one, room, size=SMALL) for one, room in zip(head, rooms, strict=True)
            ],
            "rows": [
                [_cell(one, room) for one, room in zip(row, rooms, strict=True)] for row in rows
            ],
        }

    def drawing(self, drawing: Drawing) -> Data:
        room, tall = self._turned if drawing.wide else self._upright
        says = ((_plain(drawing.title), SECTION), (_plain(drawing.says), SMALL))
        tall -= CAPTION + sum(height_of([[one]], [room], size=size) for one, size in says)
        fits = min(room / drawing.width, tall / drawing.height)
        scale = min(fits, drawing.scale) if drawing.scale else fits
        return {
            "is": "drawing",
            "about": drawing.about,
            "title": breakable(_plain(drawing.title), room, size=SECTION),
            "says": breakable(_plain(drawing.says), room, size=SMALL),
            "svg": drawing.svg,
            "alt": _plain(drawing.alt),
            "wide": drawing.wide,
            "size": [drawing.width * scale, drawing.height * scale],
        }

    def large(self, sheet: Large) -> Data:
        return {
            "is": "large",
            "about": sheet.about,
            "title": self.said(sheet.title, LARGE),
            "plain": self.said(sheet.title),
            "beside": self.said(sheet.beside, LARGE_ROW),
            "number": LARGE_NUMBER,
            "rows": [
                [
                    breakable(_plain(one), LARGE_NUMBER - 8, size=LARGE_ROW),
                    breakable(_plain(other), self.width - LARGE_NUMBER - 8, size=LARGE_ROW),
                ]
                for one, other in sheet.rows
            ],
        }

    def labels(self, sheet: Labels) -> Data:
        room = LABEL - 44
        words = room - CODE if sheet.codes else room
        return {
            "is": "labels",
            "width": LABEL,
            "code": CODE,
            "labels": [
                {
                    "number": one.number,
                    "here": breakable(_plain(one.here), words, size=SMALL),
                    "there": breakable(_plain(one.there), words, size=SMALL),
                    "kind": one.kind,
                    "plug": one.plug,
                    "length": "" if one.length is None else f"{one.length} mm",
                    "svg": _code(one.code) if sheet.codes else None,
                    "alt": _plain(one.code),
                }
                for one in sheet.labels
            ],
        }


def _cell(cell: str, room: float) -> Data:
    if isinstance(cell, See):
        return {"says": breakable(_plain(cell), room, size=SMALL), "see": cell.about}
    if cell == BOX:
        return {"says": "", "tick": True}
    return {"says": breakable(cell, room, size=SMALL)}


def _code(text: str) -> str:
    """A QR code as a drawing that stands alone."""
    return qr_svg(text).replace("<svg", '<svg xmlns="http://www.w3.org/2000/svg"', 1)
