"""A text to be changed: what it holds, where everything stands, and which rows belong together."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from thruline.document.naming import Trail
from thruline.document.places import BOM, Kind, Place, Places
from thruline.document.plain import at_trail

_STATEMENTS = (Kind.HEADER, Kind.ENTRY, Kind.PAIR)
_HEADERS = (Kind.HEADER, Kind.ENTRY)
_BLANK_ROW = re.compile(r"[ \t]*\r?(?:\n|\Z)")
_COMMENT_ROW = re.compile(r"[ \t]*#[^\n]*(?:\n|\Z)")


class Statement(NamedTuple):
    """A header, or a key with its value: what begins in a row of its own."""

    trail: Trail
    place: Place

    @property
    def is_header(self) -> bool:
        """Whether it is `[a]` or `[[a]]`."""
        return self.place.kind in _HEADERS


@dataclass(frozen=True, slots=True)
class Sheet:
    """A text that `tomllib` accepts, its data, and its statements in the order of the text."""

    text: str
    data: Mapping[str, Any]
    where: Places
    statements: Sequence[Statement]
    row_ends: str
    """What rows end with here: a line feed, or a carriage return and a line feed."""

    def kind(self, trail: Trail) -> Kind:
        """How the value at a trail comes to be there; the root is implied."""
        return self.where.of[trail].kind if trail else Kind.IMPLIED

    def under(self, trail: Trail) -> list[int]:
        """Which statements say something of the value at the trail, by number."""
        depth = len(trail)
        return [at for at, one in enumerate(self.statements) if one.trail[:depth] == trail]

    def base_of(self, at: int) -> Trail:
        """The trail of the table in whose rows a statement stands."""
        while at >= 0:
            if self.statements[at].is_header:
                return self.statements[at].trail
            at -= 1
        return ()

    def is_lone(self, trail: Trail) -> bool:
        """Whether the value at the trail is all that makes its table stand in the text."""
        table = trail[:-1]
        implied = self.kind(table) in (Kind.IMPLIED, Kind.DOTTED, Kind.INNER_DOTTED)
        return bool(table) and implied and len(at_trail(self.data, table)) == 1


def sheet(where: Places, data: Mapping[str, Any], *, row_ends: str) -> Sheet:
    """A text with the places in it, which must read as this data, ready to be changed."""
    found = [
        Statement(trail, place) for trail, place in where.of.items() if place.kind in _STATEMENTS
    ]
    found.sort(key=lambda one: one.place.key)
    return Sheet(where.text, data, where, found, row_ends)


def row_ends_of(text: str) -> str:
    """What most rows of a text end with."""
    return "\r\n" if text.count("\r\n") * 2 > text.count("\n") else "\n"


def row_start(text: str, offset: int) -> int:
    """Where the row of an offset begins; after the byte order mark in the first row."""
    begins = text.rfind("\n", 0, offset) + 1
    return 1 if begins == 0 and text.startswith(BOM) else begins


def row_end(text: str, offset: int) -> int:
    """Where the row after that of an offset begins; the end of the text after the last row."""
    ends = text.find("\n", offset)
    return len(text) if ends < 0 else ends + 1


def indent_at(text: str, offset: int) -> str | None:
    """The blanks before an offset if nothing else stands before it in its row."""
    before = text[row_start(text, offset) : offset]
    return before if not before.strip(" \t") else None


def put_rows(one: Sheet, offset: int, rows: str) -> str:
    """The text with rows put in at the beginning of a row or at the end of the text."""
    text = one.text
    if offset == len(text) and text.removeprefix(BOM) and not text.endswith("\n"):
        rows = f"\n{rows}"
    return text[:offset] + rows.replace("\n", one.row_ends) + text[offset:]


def block_start(one: Sheet, at: int) -> int:
    """Where the rows of a statement begin: with the comment right above, if it is a header.

    A comment in the first row of all is about the document, not about what follows.
    """
    begins = row_start(one.text, one.statements[at].place.key)
    if not one.statements[at].is_header:
        return begins
    above = row_end(one.text, one.statements[at - 1].place.end) if at else _first(one.text)
    start = begins
    while start > above:
        row = row_start(one.text, start - 1)
        if not _COMMENT_ROW.match(one.text, row):
            return start
        start = row
    return begins if start == _first(one.text) else start


def block_end(one: Sheet, at: int) -> int:
    """Where the rows of a statement end.

    Comments right below it belong to it, unless they go on to the next statement.
    """
    ends = row_end(one.text, one.statements[at].place.end)
    below = ends
    while below < len(one.text) and (comment := _COMMENT_ROW.match(one.text, below)):
        below = comment.end()
    return below if _BLANK_ROW.match(one.text, below) else ends


def without_block(text: str, start: int, end: int) -> str:
    """The text without the rows from `start` to `end`, and one gap where there were two."""
    before = _before_blank_rows(text, start)
    if before < start or start == _first(text):
        end = past_blank_rows(text, end)
    if end == len(text):
        start = before
    return text[:start] + text[end:]


def past_blank_rows(text: str, offset: int) -> int:
    """The offset after the blank rows that begin at an offset."""
    while offset < len(text) and (blank := _BLANK_ROW.match(text, offset)):
        offset = blank.end()
    return offset


def begins_blank(text: str, offset: int) -> bool:
    """Whether the text ends at an offset, or a blank row begins there."""
    return _BLANK_ROW.match(text, offset) is not None


def _before_blank_rows(text: str, offset: int) -> int:
    """Where the blank rows that end at an offset begin."""
    while offset > _first(text):
        row = row_start(text, offset - 1)
        if text[row:offset].strip():
            return offset
        offset = row
    return offset


def _first(text: str) -> int:
    return 1 if text.startswith(BOM) else 0
