"""Where every key and value of a TOML text stands.

`tomllib` judges a text; this only finds places in a text that `tomllib` accepts. It reads the text
once from front to back without calling itself, so that a long document takes time in proportion
and a deeply nested one cannot exhaust the stack.
"""

import json
import re
import tomllib
from bisect import bisect_right
from dataclasses import dataclass
from enum import IntEnum
from typing import NamedTuple

from thruline.base.spot import Spot
from thruline.document.naming import Trail

MAX_DEPTH = 32
"""How many keys and indexes may lead to a value; a rig needs six. More is refused, not guessed."""

BOM = "\ufeff"
"""The byte order mark that some editors put at the front of a text; it is kept and not counted."""


class Kind(IntEnum):
    """How a value comes to be where it is."""

    IMPLIED = 0
    """A table that only stands in longer headers: the `a` of `[a.b]`; or the root."""
    ENTRIES = 1
    """A list made by `[[a]]`; its place is that of its first entry."""
    HEADER = 2
    """A table of its own: `[a]`."""
    ENTRY = 3
    """One entry of a list of tables: `[[a]]`."""
    DOTTED = 4
    """A table that only stands in the dotted key of a row: the `a` of `a.b = 1`."""
    PAIR = 5
    """A value with its key in a row of its own."""
    INNER_DOTTED = 6
    """As DOTTED, in an inline table."""
    INNER = 7
    """A value with its key in an inline table."""
    ITEM = 8
    """A value in an array."""


class Place(NamedTuple):
    """Offsets into the text: of the key from its first character, and of the value.

    Tables with a header have that header as key and as value. An item of an array has no key: its
    value stands for it.
    """

    kind: Kind
    key: int
    key_end: int
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Places:
    """A text, the place of everything in it, and the first key that is given twice, if any."""

    text: str
    of: dict[Trail, Place]
    row_starts: list[int]
    twice: tuple[Trail, Place, Place] | None = None

    def nearest(self, trail: Trail) -> tuple[Trail, Place | None]:
        """The place at the trail, or of the nearest table around it; None at the root."""
        while trail:
            if trail in self.of:
                return trail, self.of[trail]
            trail = trail[:-1]
        return (), None

    def row_at(self, offset: int) -> int:
        """The row, from 1, in which an offset lies."""
        return bisect_right(self.row_starts, offset)

    def spot(self, file: str, start: int, end: int) -> Spot:
        """The part of the text from `start` to `end` as a spot; cut off at the end of its row."""
        row = self.row_at(start)
        begins = self.row_starts[row - 1]
        if row == 1 and self.text.startswith(BOM):
            begins = min(1, start)
        row_end = self.text.find("\n", start)
        row_end = len(self.text) if row_end < 0 else row_end
        return Spot(file, row, start - begins + 1, max(0, min(end, row_end) - start))


class TooDeep(Exception):
    """Something stands deeper than MAX_DEPTH keys and indexes; `offset` says where."""

    def __init__(self, offset: int) -> None:
        super().__init__(offset)
        self.offset = offset


class Lost(Exception):
    """The text is no TOML at `offset`; `opened` are the brackets still open there, outermost first.

    Only a text that `tomllib` refuses can lead here.
    """

    def __init__(self, offset: int, opened: tuple[int, ...] = ()) -> None:
        super().__init__(offset)
        self.offset = offset
        self.opened = opened


def places(text: str) -> Places:
    """Find everything in a text that `tomllib` accepts. Raises TooDeep."""
    finder = _Finder(text)
    finder.read()
    return Places(text, finder.of, row_starts(text), finder.twice)


def row_starts(text: str) -> list[int]:
    """The offset at which each row begins."""
    return [0, *(found.end() for found in _NEWLINE.finditer(text))]


_NEWLINE = re.compile(r"\n")
_BLANKS = re.compile(r"[ \t]*+")
_SPACE = re.compile(r"(?:[ \t\r\n]++|#[^\n]*+)*+")
_KEY = re.compile(r'"(?:[^"\\\n]++|\\.)*+"|\'[^\'\n]*+\'|[A-Za-z0-9_-]++')
_PLAIN_KEY = re.compile(r"([A-Za-z0-9_-]++)[ \t]*+=[ \t]*+")  # by far the most are such
_SCALAR = re.compile(
    r'"""(?:[^"\\]++|\\.|"(?!""))*+""""{0,2}'
    r"|'''(?:[^']++|'(?!''))*+''''{0,2}"
    r'|"(?!"")(?:[^"\\\n]++|\\[^\n])*+"'
    r"|'(?!'')[^'\n]*+'"
    r"|[^\s,\[\]{}#\"'](?:[^,\[\]{}#\r\n\"']*[^\s,\[\]{}#\"'])?",
    re.DOTALL,
)


class _Open(NamedTuple):
    """An array or inline table that has been opened and not yet closed."""

    trail: Trail
    kind: Kind
    key: int
    key_end: int
    start: int


class _Finder:
    """Reads a text from front to back and notes what it passes."""

    __slots__ = ("base", "last_entry", "of", "text", "twice")

    def __init__(self, text: str) -> None:
        self.text = text
        self.of: dict[Trail, Place] = {}
        self.last_entry: dict[Trail, int] = {}
        self.base: Trail = ()
        self.twice: tuple[Trail, Place, Place] | None = None

    def read(self) -> None:
        """Note all of the text."""
        text = self.text
        offset = 1 if text.startswith(BOM) else 0
        while True:
            offset = _past(_SPACE, text, offset)
            if offset == len(text):
                return
            offset = self._header(offset) if text[offset] == "[" else self._pair(offset)

    def _header(self, start: int) -> int:
        many = self.text.startswith("[[", start)
        width = 2 if many else 1
        names, spans, end = self._names(start + width)
        if not self.text.startswith("]" * width, end):
            raise Lost(end, (start,))
        end += width
        place = Place(Kind.HEADER, start, end, start, end)
        trail: Trail = ()
        for name, (first, last) in zip(names[:-1], spans, strict=False):
            trail = (*trail, name)
            if trail in self.last_entry:
                trail = (*trail, self.last_entry[trail])
            elif trail not in self.of:
                self.of[trail] = Place(Kind.IMPLIED, first, last, first, last)
        trail = (*trail, names[-1])
        self.base = self._entry(trail, place) if many else trail
        if len(self.base) >= MAX_DEPTH:
            raise TooDeep(start)
        if not many:
            self._note(trail, place)
        return end

    def _entry(self, trail: Trail, place: Place) -> Trail:
        """Note one more entry of the list at the trail; the trail of the entry."""
        known = self.of.get(trail)
        if known is None:
            self.of[trail] = place._replace(kind=Kind.ENTRIES)
        elif known.kind is not Kind.ENTRIES:
            self._note(trail, place)
        index = self.last_entry.get(trail, -1) + 1
        self.last_entry[trail] = index
        self.of[(*trail, index)] = place._replace(kind=Kind.ENTRY)
        return (*trail, index)

    def _pair(self, offset: int) -> int:
        trail, key_end, start = self._key(self.base, offset, Kind.DOTTED)
        return self._value(_Open(trail, Kind.PAIR, offset, key_end, start))

    def _key(self, base: Trail, offset: int, implied: Kind) -> tuple[Trail, int, int]:
        """The trail that a key leads to, where the key ends, and where its value begins."""
        plain = _PLAIN_KEY.match(self.text, offset)
        if plain is not None and len(base) < MAX_DEPTH:
            return (*base, plain[1]), plain.end(1), plain.end()
        names, spans, end = self._names(offset)
        if len(base) + len(names) > MAX_DEPTH:
            raise TooDeep(offset)
        if not self.text.startswith("=", end):
            raise Lost(end)
        for name, (first, last) in zip(names[:-1], spans, strict=False):
            base = (*base, name)
            known = self.of.get(base)
            if known is None or known.kind is Kind.IMPLIED:
                self.of[base] = Place(implied, first, last, first, last)
        return (*base, names[-1]), spans[-1][1], _past(_BLANKS, self.text, end + 1)

    def _names(self, offset: int) -> tuple[list[str], list[tuple[int, int]], int]:
        """The parts of a key, the span of each, and the first offset after key and blanks."""
        text, start = self.text, offset
        names: list[str] = []
        spans: list[tuple[int, int]] = []
        while len(names) <= MAX_DEPTH:
            found = _KEY.match(text, _past(_BLANKS, text, offset))
            if found is None:
                raise Lost(offset)
            names.append(_name(found[0]))
            spans.append(found.span())
            offset = _past(_BLANKS, text, found.end())
            if not text.startswith(".", offset):
                return names, spans, offset
            offset += 1
        raise TooDeep(start)

    def _value(self, begun: _Open) -> int:
        """Note a value with all that is in it; the offset after it."""
        opened: list[tuple[_Open, int]] = []
        while True:
            text, start = self.text, begun.start
            if text.startswith(("[", "{"), start):
                if len(begun.trail) >= MAX_DEPTH:
                    raise TooDeep(start)
                opened.append((begun, 0))
                offset = _past(_SPACE, text, start + 1)
            else:
                found = _SCALAR.match(text, start)
                if found is None:
                    raise Lost(start, _brackets(opened))
                offset = found.end()
                self._note(begun.trail, Place(begun.kind, begun.key, begun.key_end, start, offset))
                offset = self._after(offset, opened)
            offset = self._close(offset, opened)
            if not opened:
                return offset
            begun = self._next(offset, opened)

    def _after(self, offset: int, opened: list[tuple[_Open, int]]) -> int:
        """Past the comma behind a value, if it stands in something."""
        if not opened:
            return offset
        offset = _past(_SPACE, self.text, offset)
        if self.text.startswith(",", offset):
            return _past(_SPACE, self.text, offset + 1)
        if not self.text.startswith(("]", "}"), offset):
            raise Lost(offset, _brackets(opened))
        return offset

    def _close(self, offset: int, opened: list[tuple[_Open, int]]) -> int:
        """Note all arrays and tables that end at the offset; the offset after them."""
        text = self.text
        while opened:
            begun, _ = opened[-1]
            if not text.startswith("]" if text[begun.start] == "[" else "}", offset):
                return offset
            opened.pop()
            offset += 1
            place = Place(begun.kind, begun.key, begun.key_end, begun.start, offset)
            self._note(begun.trail, place)
            offset = self._after(offset, opened)
        return offset

    def _next(self, offset: int, opened: list[tuple[_Open, int]]) -> _Open:
        """What begins at the offset in the innermost array or table."""
        around, count = opened[-1]
        if self.text[around.start] == "[":
            opened[-1] = (around, count + 1)
            return _Open((*around.trail, count), Kind.ITEM, offset, offset, offset)
        try:
            trail, key_end, start = self._key(around.trail, offset, Kind.INNER_DOTTED)
        except Lost as lost:
            raise Lost(lost.offset, _brackets(opened)) from None
        return _Open(trail, Kind.INNER, offset, key_end, start)

    def _note(self, trail: Trail, place: Place) -> None:
        known = self.of.get(trail)
        if known is not None and known.kind is not Kind.IMPLIED and self.twice is None:
            self.twice = (trail, known, place)
        self.of[trail] = place


def _past(pattern: re.Pattern[str], text: str, offset: int) -> int:
    """Past what the pattern (which always fits, if only nothing) takes up."""
    found = pattern.match(text, offset)
    return offset if found is None else found.end()


def _brackets(opened: list[tuple[_Open, int]]) -> tuple[int, ...]:
    return tuple(begun.start for begun, _ in opened)


def _name(written: str) -> str:
    """The name that a written part of a key means."""
    if written[0] not in "\"'":
        return written
    if written[0] == "'" or "\\" not in written:
        return written[1:-1]
    try:
        return str(tomllib.loads(f"key = {written}")["key"])
    except tomllib.TOMLDecodeError:
        return json.dumps(written)  # only in a text that tomllib refuses
