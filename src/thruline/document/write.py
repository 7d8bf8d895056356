"""Plain data as a text that reads naturally: what a careful person would have typed.

Plain values first, then a `[table]` for each table and a `[[table]]` for each entry of a list of
tables. Small tables stay in one row; lists that are too long for a row are spread over several.
"""

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, Protocol, TypeAlias, runtime_checkable

from thruline.base.errors import CannotUse
from thruline.document.places import MAX_DEPTH
from thruline.document.plain import is_too_deep

WIDTH = 100
"""Characters in a row before a list is broken into rows."""

STEP = "  "
"""How far the entries of a broken list stand in."""

Value: TypeAlias = Any
"""What TOML can hold: text, number, true or false, date or time, list or table of these."""

WHOLE_NUMBERS = range(-(2**63), 2**63)
"""What TOML 1.0 promises to hold without loss."""

_BARE_KEY = re.compile(r"[A-Za-z0-9_-]+")


@runtime_checkable
class _Dated(Protocol):
    def isoformat(self) -> str: ...


def document_text(data: Mapping[str, Value]) -> str:
    """A whole document. Reading it with `tomllib` gives equal data back.

    Raises CannotUse for what TOML cannot hold, and for more than MAX_DEPTH levels.
    """
    if is_too_deep(data):
        raise CannotUse(f"a document cannot hold more than {MAX_DEPTH} levels")
    return "".join(_rows(_table(data, ()))).lstrip("\n")


def table_text(names: Sequence[str], value: Mapping[str, Value], *, entry: bool = False) -> str:
    """A table with its header, `[names]` or `[[names]]` when it is an entry of a list."""
    return "".join(_rows([_header(names, entry=entry), *_table(value, tuple(names))])).lstrip("\n")


def pair_text(names: Sequence[str], value: Value, *, indent: str = "") -> str:
    """A row `key = value`, or several rows when the value is a list that is too long for one."""
    head = f"{indent}{key_text(names)} = "
    return head + value_text(value, room=WIDTH - len(head), indent=indent)


def key_text(names: Sequence[str]) -> str:
    """A key, dotted when it has several parts; parts are quoted only where they must be."""
    return ".".join(name if _BARE_KEY.fullmatch(name) else _quoted(name) for name in names)


def value_text(value: Value, *, room: int | None = None, indent: str = "") -> str:
    """A value in one row; a list that has no room in it gets several.

    Without `room` it is always one row. Raises CannotUse for what TOML cannot hold.
    """
    one_row = _one_row(value, MAX_DEPTH)
    if room is None or len(one_row) <= room or not isinstance(value, Sequence) or not value:
        return one_row
    return one_row if isinstance(value, str) else rows_text(value, indent=indent)


def rows_text(value: Sequence[Value], *, indent: str = "") -> str:
    """A list over several rows, with a comma after each entry, so that rows can be moved.

    Tables and lists in it get a row each; plain values share rows as far as they have room.
    """
    margin = indent + STEP
    rows: list[str] = []
    for entry in value:
        told = f"{_one_row(entry, MAX_DEPTH)},"
        shares = bool(rows) and not isinstance(entry, Mapping | list | tuple)
        if shares and len(margin) + len(rows[-1]) + 1 + len(told) <= WIDTH:
            rows[-1] = f"{rows[-1]} {told}"
        else:
            rows.append(told)
    return "\n".join(["[", *(margin + row for row in rows), f"{indent}]"])


def _fits_row(key: str, value: Value) -> bool:
    """Whether a table has room in a row behind its key; other values always find room."""
    return not isinstance(value, Mapping) or len(pair_text((key,), value)) <= WIDTH


def is_list_of_tables(value: Value) -> bool:
    """Whether a value is a list of tables with at least one entry."""
    if not isinstance(value, Sequence) or isinstance(value, str) or not value:
        return False
    return all(isinstance(entry, Mapping) for entry in value)


def _table(data: Mapping[str, Value], names: tuple[str, ...]) -> Iterator[str]:
    """Rows of a table: first what stands in a row, then what gets a header of its own."""
    apart = {key for key, value in data.items() if stands_apart(key, value, at_root=not names)}
    for key, value in data.items():
        if key not in apart:
            yield pair_text((key,), value)
    for key, value in data.items():
        if key not in apart:
            continue
        below = (*names, key)
        for one in [value] if isinstance(value, Mapping) else value:
            yield _header(below, entry=not isinstance(value, Mapping))
            yield from _table(one, below)


def stands_apart(key: str, value: Value, *, at_root: bool) -> bool:
    """Whether a value gets headers of its own: tables do, unless they fit in rows."""
    if is_list_of_tables(value):
        return at_root or not all(_fits_row(STEP, entry) for entry in value)
    return isinstance(value, Mapping) and (at_root or not _fits_row(key, value))


def _header(names: Sequence[str], *, entry: bool) -> str:
    return f"\n[[{key_text(names)}]]" if entry else f"\n[{key_text(names)}]"


def _rows(rows: Iterator[str] | Sequence[str]) -> Iterator[str]:
    for row in rows:
        yield f"{row}\n"


def _one_row(value: Value, levels: int) -> str:
    if levels == 0:
        raise CannotUse(f"a document cannot hold more than {MAX_DEPTH} levels")
    match value:
        case bool():
            return "true" if value else "false"
        case str():
            return _quoted(value)
        case int() if value in WHOLE_NUMBERS:
            return repr(int(value))
        case float():
            return repr(float(value))
        case Mapping():
            return _inline_table(value, levels - 1)
        case Sequence() if not isinstance(value, bytes | bytearray):
            return f"[{', '.join(_one_row(entry, levels - 1) for entry in value)}]"
        case _Dated():
            return value.isoformat()
        case int():
            raise CannotUse("this number is larger than any that is needed in a document")
        case _:
            raise CannotUse(f"a document cannot hold this: {type(value).__name__}")


def _inline_table(value: Mapping[str, Value], levels: int) -> str:
    pairs = [f"{key_text((key,))} = {_one_row(inner, levels)}" for key, inner in value.items()]
    return f"{{ {', '.join(pairs)} }}" if pairs else "{}"


def _quoted(text: str) -> str:
    """Text in double quotes. TOML escapes as JSON does, and the delete character besides."""
    try:
        text.encode()
    except UnicodeEncodeError:
        raise CannotUse("a document cannot hold half a character (a lone surrogate)") from None
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\u007F")
