"""Edits of entries of one list, each made in the few rows of its own entry.

A sheet that is pasted changes two thousand places; to look through the whole document for each
would take a minute. The entries are cut out, changed alone, and put back.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from thruline.base.address import Address, Step
from thruline.base.edit import Edit
from thruline.base.errors import CannotUse
from thruline.document.change import apply
from thruline.document.naming import labels
from thruline.document.parse import Parsed
from thruline.document.plain import apply_to_data, same


def entry_by_entry(document: Parsed[Any], edits: Sequence[Edit]) -> str | None:
    """The text with each entry changed alone; None where the edits are not of that kind.

    It is not looked at whether the text as a whole reads as it should: whoever reads it next asks
    `reads_as`, and makes the edits with `apply_to` where it does not.
    """
    return _entry_by_entry(document, edits) if edits else None


def reads_as(data: Mapping[str, Any], before: Mapping[str, Any], edits: Sequence[Edit]) -> bool:
    """Whether data holds exactly what the edits make of the data before."""
    for edit in edits:
        before = apply_to_data(before, edit)
    return same(data, before)


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
