"""Many edits of entries of one list, each made in the few rows of its own entry.

A sheet that is pasted changes two thousand places; to read the whole document again after each
would take a minute. The entries are cut out, changed alone, and put back. The outcome must read as
exactly what the edits mean, or else they are made one by one.
"""

import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from thruline.base.address import Address, Step
from thruline.base.edit import Edit
from thruline.base.errors import CannotUse
from thruline.document.change import apply, apply_to
from thruline.document.naming import labels
from thruline.document.parse import Parsed
from thruline.document.plain import apply_to_data, same

FEW = 6
"""Up to so many edits are made one by one."""


def apply_many(document: Parsed[Any], edits: Sequence[Edit]) -> str:
    """As `apply_to`, and fast where many edits are about entries of one list.

    Raises CannotUse when an edit cannot be made.
    """
    if len(edits) > FEW:
        text = _entry_by_entry(document, edits)
        if text is not None and _reads_as(text, document.data, edits):
            return text
    return apply_to(document, edits)


def _reads_as(text: str, data: Mapping[str, Any], edits: Sequence[Edit]) -> bool:
    for edit in edits:
        data = apply_to_data(data, edit)
    try:
        return same(tomllib.loads(text), data)
    except tomllib.TOMLDecodeError:
        return False


def _entry_by_entry(document: Parsed[Any], edits: Sequence[Edit]) -> str | None:
    """The text with each entry changed alone; None where that is not possible."""
    keys = {edit.address.steps[0].key for edit in edits}
    if len(keys) != 1 or any(len(edit.address.steps) < 2 for edit in edits):
        return None
    key = keys.pop()
    entries = document.data.get(key)
    if not isinstance(entries, list):
        return None
    rows = document.text.splitlines(keepends=True)
    spans = list(_spans(rows, key))
    names = {name: place for place, name in enumerate(labels(key, entries))}
    if len(spans) != len(entries):
        return None
    wanted: dict[int, list[Edit]] = {}
    for edit in edits:
        place = names.get(edit.address.steps[0].entry or "")
        if place is None:
            return None
        wanted.setdefault(place, []).append(_alone(edit, labels(key, [entries[place]])[0]))
    return _put_back(rows, spans, wanted)


def _spans(rows: Sequence[str], key: str) -> Iterator[tuple[int, int]]:
    """From the header of each entry to the next header that is not of a table inside it."""
    begins = re.compile(rf"\s*\[\[\s*{re.escape(key)}\s*\]\]")
    inside = re.compile(rf"\s*\[\[?\s*{re.escape(key)}\s*\.")
    start = None
    for place, row in enumerate(rows):
        if row.lstrip().startswith("[") and not inside.match(row):
            if start is not None:
                yield start, place
            start = place if begins.match(row) else None
    if start is not None:
        yield start, len(rows)


def _alone(edit: Edit, name: str) -> Edit:
    """The edit in a document that holds only its entry."""
    first, *rest = edit.address.steps
    return Edit(edit.kind, Address((Step(first.key, name), *rest)), edit.value)


def _put_back(
    rows: Sequence[str], spans: Sequence[tuple[int, int]], wanted: Mapping[int, Sequence[Edit]]
) -> str | None:
    parts: list[str] = []
    done = 0
    for place in sorted(wanted):
        start, stop = spans[place]
        try:
            changed = apply("".join(rows[start:stop]), wanted[place])
        except CannotUse:
            return None
        parts += [*rows[done:start], changed]
        done = stop
    return "".join([*parts, *rows[done:]])
