"""What names a table in a list, and from there the way between addresses and places in plain data.

Plain data is what `tomllib` gives. A trail leads to a value in it by keys and indexes (from 0), as
in `("unit", 1, "channel")`, the same as pydantic's `loc`. An address says the same so that it
survives edits elsewhere: `unit[delay].channel`.

Three things keep the two exact inverses of each other, whatever a document holds:

- A second entry of the same name is `12#2`. An entry without a name is its running number from 1,
  `#3`; an entry of a list inside a list is a step with the key `-`, as in `curve[#1].-[#2]`.
- Brackets cannot stand in an entry's name: `[` is written `%5B` and `]` is written `%5D`. A per
  cent sign that would then be misread (before `5B`, `5D` or `25`) is written `%25`; others stay.
- A key of other characters than letters, digits, `-` and `_` has each of these written as its
  code in hexadecimal, `_x20_` for a blank; so has an underscore before an `x`, `_x5F_`.
"""

import re
from collections.abc import Mapping, Sequence
from typing import Any, TypeAlias

from thruline.base.address import Address, Step
from thruline.base.errors import CannotUse

Trail: TypeAlias = tuple[str | int, ...]
"""Keys and indexes (from 0) from the root of plain data to a value in it."""

NAMED_BY: Mapping[str, tuple[str, ...]] = {
    "accept": ("finding",),
    "bond": ("from", "to"),
    "cable": ("from", "to"),
    "control": ("id",),
    "loop": ("id",),
    "moves": ("unit", "control"),
    "outlet": ("socket",),
    "output": ("socket",),
    "pedal": ("socket",),
    "preset": ("number",),
    "send": ("what",),
    "setting": ("id",),
    "socket": ("id",),
    "song": ("name",),
    "source": ("fact",),
    "special": ("label",),
    "sweep": ("name",),
    "unit": ("id",),
    "zones": ("label",),
}
"""For each list of tables, the keys whose values name an entry; several are joined by `>`."""

INNER = "-"
"""The key of a step into a list that itself stands in a list."""

_TO_ESCAPE = re.compile(r"[\[\]]|%(?=5B|5D|25)")
_ESCAPED = re.compile(r"%(5B|5D|25)")
_KEY_TO_ESCAPE = re.compile(r"[^A-Za-z0-9_-]|_(?=x)|\A\Z")
_KEY_ESCAPED = re.compile(r"_x([0-9A-F]*)_")
_LONGEST_NAMING_NUMBER = 64  # bits: TOML promises no more, and a longer one names nothing


def labels(key: str, entries: Sequence[object]) -> list[str]:
    """What each entry of the list under `key` is called in an address; no two are alike."""
    given: list[str] = []
    taken: set[str] = set()
    occurrences: dict[str, int] = {}
    for index, entry in enumerate(entries):
        name = _name(key, entry) or f"#{index + 1}"
        label = name
        occurrence = occurrences.get(name, 0) + 1
        if occurrence > 1:
            label = f"{name}#{occurrence}"
        while label in taken:
            occurrence += 1
            label = f"{name}#{occurrence}"
        occurrences[name] = occurrence
        taken.add(label)
        given.append(label)
    return given


def address_of(data: object, trail: Trail) -> Address:
    """The address of a place in plain data; parts of it that are not there are named as they are.

    An index that is not there is a running number.
    """
    steps: list[Step] = []
    here = data
    for part in trail:
        if isinstance(part, str):
            steps.append(Step(_escaped_key(part)))
        else:
            entry = _label(here, steps, part)
            if steps and steps[-1].entry is None:
                steps[-1] = Step(steps[-1].key, entry)
            else:
                steps.append(Step(INNER, entry))
        here = _below(here, part)
    return Address(tuple(steps))


def trail_of(data: object, address: Address) -> Trail:
    """The place in plain data that an address means; the inverse of `address_of`.

    Keys at its end need not be there (an edit may be about to add them). Raises CannotUse for a
    list entry that is not there, and for a key of something that is not a table.
    """
    trail: list[str | int] = []
    here = data
    for step in address.steps:
        into_inner = step.key == INNER and step.entry is not None and isinstance(here, list)
        if not into_inner:
            key = _read_key(step.key)
            if here is not None and not isinstance(here, Mapping):
                raise CannotUse(f'{address}: there is no "{step.key}" in what is not a table')
            trail.append(key)
            here = _below(here, key)
        if step.entry is not None:
            index = _index(here, trail, step.entry)
            if index is None:
                raise CannotUse(f"{address}: there is no {step}")
            trail.append(index)
            here = _below(here, index)
    return tuple(trail)


def _name(key: str, entry: object) -> str | None:
    """The name an entry gives itself, ready for an address."""
    keys = NAMED_BY.get(key)
    if keys is None or not isinstance(entry, Mapping):
        return None
    parts: list[str] = []
    for naming in keys:
        value = entry.get(naming)
        if isinstance(value, bool) or not isinstance(value, str | int):
            return None
        if isinstance(value, int) and value.bit_length() > _LONGEST_NAMING_NUMBER:
            return None
        parts.append(str(value))
    return _escaped(">".join(parts))


def _label(entries: object, steps: Sequence[Step], index: int) -> str:
    key = steps[-1].key if steps and steps[-1].entry is None else INNER
    if not isinstance(entries, list) or index >= len(entries):
        return f"#{index + 1}"
    return labels(_read_key(key), entries)[index]


def _index(entries: object, trail: Sequence[str | int], label: str) -> int | None:
    """Where the entry of this label stands; the label may be the plain name, brackets and all."""
    if not isinstance(entries, list):
        return None
    key = trail[-1] if trail and isinstance(trail[-1], str) else INNER
    known = labels(key, entries)
    for wanted in (label, _escaped(label)):
        if wanted in known:
            return known.index(wanted)
    return None


def _below(here: object, part: str | int) -> Any:  # noqa: ANN401 - anything TOML can hold
    if isinstance(part, str):
        return here.get(part) if isinstance(here, Mapping) else None
    return here[part] if isinstance(here, list) and part < len(here) else None


def _escaped(name: str) -> str:
    return _TO_ESCAPE.sub(lambda found: f"%{ord(found[0]):02X}", name)


def read_name(label: str) -> str:
    """The name as the document has it, brackets and all, of one without an added `#2`."""
    return _ESCAPED.sub(lambda found: chr(int(found[1], 16)), label)


def _escaped_key(key: str) -> str:
    return _KEY_TO_ESCAPE.sub(lambda found: f"_x{ord(found[0]):X}_" if found[0] else "_x_", key)


def _read_key(key: str) -> str:
    return _KEY_ESCAPED.sub(_character, key)


def _character(found: re.Match[str]) -> str:
    code = int(found[1], 16) if found[1] else None
    if code is None:
        return ""
    return chr(code) if code <= 0x10FFFF else found[0]
