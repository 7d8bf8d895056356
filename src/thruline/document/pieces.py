"""A text read piece by piece: entries that stood in an earlier text are not read again.

A piece is one entry of a list of tables (`[[preset]]` to the next header that is not of a table in
it); everything else together is one more. Each is read alone, from its first row. When that works
for all of them, every piece ends where a new statement can begin, so the cuts are true cuts and no
header stood in a string or an array; and when no key stands in two kinds of pieces, none can add to
another. The whole then holds what the pieces hold. In any other case there is no answer here, and
the text is read in one go.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, TypeAlias

from thruline.document.places import BOM, TooDeep
from thruline.document.read import plain_data
from thruline.document.unseen import hides_some

Key: TypeAlias = tuple[str, str]
"""The name of a list, and the text of one entry with its header."""

_HEADER = re.compile(r"^[ \t]*\[(\[?)[ \t]*([A-Za-z0-9_-]+)[ \t]*([].])", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Pieces:
    """What a text holds, and every entry of its lists by its own text."""

    data: dict[str, Any]
    entries: Mapping[Key, Any]


def read_pieces(text: str, before: Pieces | None = None) -> Pieces | None:
    """What a text holds; entries that an earlier text had are the same objects again.

    None where it cannot be read in pieces, or at all, or holds what nobody sees.
    """
    known = before.entries if before else {}
    entries: dict[Key, Any] = {}
    lists: dict[str, list[Any]] = {}
    rest: list[str] = []
    for name, piece in _cut(text.removeprefix(BOM)):
        if name is None:
            rest.append(piece)
            continue
        entry = entries.get((name, piece)) or known.get((name, piece)) or _entry(name, piece)
        if entry is None:
            return None
        entries[name, piece] = entry
        lists.setdefault(name, []).append(entry)
    data = _data("".join(rest))
    if data is None or not lists.keys().isdisjoint(data):
        return None
    return Pieces({**data, **lists}, entries)


def _cut(text: str) -> Iterator[tuple[str | None, str]]:
    """The pieces in their order; those without a name belong together."""
    begun, name = 0, None
    for header in _HEADER.finditer(text):
        double, first, after = header.groups()
        if name is not None and first == name and after == ".":
            continue
        starts_entry = double and after == "]"
        if starts_entry or name is not None:
            yield name, text[begun : header.start()]
            begun, name = header.start(), first if starts_entry else None
    yield name, text[begun:]


def _entry(name: str, piece: str) -> Any | None:  # noqa: ANN401 - anything TOML can hold
    """The one entry that a piece holds; None when it holds anything else."""
    data = _data(piece)
    held = data.get(name) if data is not None and len(data) == 1 else None
    return held[0] if isinstance(held, list) and len(held) == 1 else None


def _data(text: str) -> dict[str, Any] | None:
    try:
        data = plain_data(text)
        return None if hides_some(text, data) else data
    except (TooDeep, RecursionError, ValueError):
        return None
