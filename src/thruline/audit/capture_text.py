"""Captures as plain text: a head, then a row for each thing that came, as it came.

    thruline capture 1
    began 2026-03-01 19:04:11
    line 1 Interface port A
    # rows: microseconds from the start, line, bytes in hexadecimal (or a word and its text)
    0 1 C2 05
    640 1 B2 34 40
    2500000 0 press 12
    9000000 1 gone Interface port A

Rows are only ever added at the end, so that a power cut takes the last of them at most: a last row
without its line end is left out.
"""

import re
from collections.abc import Iterator
from typing import Final

from thruline.audit.capture import Came, Capture, Entry, Note, NoteKind
from thruline.base.errors import CannotUse
from thruline.midi.words import in_hex

FIRST: Final = "thruline capture 1"
"""The first row: what this is, and in which format."""

_ROW = re.compile(r"([0-9]{1,18}) ([0-9]{1,4}) (.+)")
_BYTES = re.compile(r"[0-9A-Fa-f]{2}(?: [0-9A-Fa-f]{2})*")
_LINE = re.compile(r"line ([1-9][0-9]{0,3}) (.+)")
_EXAMPLE = "640 1 B2 34 40"


def head_rows(lines: tuple[str, ...], *, began: str = "") -> Iterator[str]:
    """The rows that a capture begins with."""
    yield FIRST
    if began:
        yield f"began {_plain(began)}"
    for number, name in enumerate(lines, 1):
        yield f"line {number} {_plain(name)}"
    yield "# rows: microseconds from the start, line, bytes in hexadecimal (or a word and its text)"


def entry_row(entry: Entry) -> str:
    """One row; the inverse of `read_row`."""
    if isinstance(entry, Came):
        return f"{entry.at_us} {entry.line} {in_hex(entry.data)}"
    return f"{entry.at_us} {entry.line} {entry.kind.value} {_plain(entry.text)}".rstrip()


def _plain(text: str) -> str:
    """A text that fits in a row."""
    return " ".join(text.split())


def write_capture(capture: Capture) -> str:
    """The whole text of a capture; the inverse of `read_capture`."""
    rows = [*head_rows(capture.lines, began=capture.began), *map(entry_row, capture.entries)]
    return "\n".join(rows) + "\n"


def read_row(row: str) -> Entry:
    """One row of what came. Raises CannotUse when it is none."""
    parts = _ROW.fullmatch(row)
    if parts is None:
        raise CannotUse(f'"{row[:60]}" is no row of a capture; one looks like this: {_EXAMPLE}')
    at_us, line, rest = int(parts[1]), int(parts[2]), parts[3].strip()
    word, _, text = rest.partition(" ")
    if word in {kind.value for kind in NoteKind}:
        return Note(at_us, line, NoteKind(word), text)
    if _BYTES.fullmatch(rest):
        return Came(at_us, line, bytes.fromhex(rest))
    raise CannotUse(
        f'"{rest[:40]}" is neither bytes in hexadecimal nor a note; a row looks like this: '
        f"{_EXAMPLE}"
    )


def read_capture(text: str) -> Capture:
    """The capture in a text.

    Raises CannotUse, naming the row, when it is no capture, a row of it makes no sense, or times
    run backwards. A last row that was cut off is left out.
    """
    rows = text.split("\n")
    if rows[0].strip() != FIRST:
        raise CannotUse(f'this is no capture: one begins with the row "{FIRST}"')
    lines: dict[int, str] = {}
    began = ""
    entries: list[Entry] = []
    for number, row in enumerate(rows[1:-1], 2):
        row = row.strip()  # noqa: PLW2901 - the same row, without what editors add
        try:
            if row.startswith("began "):
                began = row.removeprefix("began ")
            elif named := _LINE.fullmatch(row):
                lines[int(named[1])] = named[2]
            elif row and not row.startswith("#"):
                entries.append(_next(entries, read_row(row), lines))
        except CannotUse as trouble:
            raise CannotUse(f"row {number}: {trouble.says}") from trouble
    names = tuple(lines.get(place, "") for place in range(1, max(lines, default=0) + 1))
    return Capture(lines=names, entries=tuple(entries), began=began)


def _next(before: list[Entry], entry: Entry, lines: dict[int, str]) -> Entry:
    """The entry, if it fits behind those before."""
    if before and entry.at_us < before[-1].at_us:
        raise CannotUse(f"{entry.at_us} comes before {before[-1].at_us}, the time of the row above")
    if (entry.line or isinstance(entry, Came)) and entry.line not in lines:
        known = ", ".join(map(str, sorted(lines))) or "none"
        raise CannotUse(f"there is no line {entry.line}; the lines named at the top are: {known}")
    return entry
