"""Changes of whole rows: pairs, headers, and the blocks that belong to them."""

from collections.abc import Mapping, Sequence

from thruline.document.naming import Trail
from thruline.document.places import Kind
from thruline.document.sheet import (
    Sheet,
    begins_blank,
    block_end,
    block_start,
    indent_at,
    put_rows,
    row_end,
    row_start,
    without_block,
)
from thruline.document.write import Value, key_text, pair_text, table_text, value_text


def add_pair(one: Sheet, table: Trail, key: str, *, value: Value) -> str:
    """A further row in a table that has a header, or in front of the first header for the root."""
    at = next((n for n, known in enumerate(one.statements) if known.trail == table), -1)
    last = at
    while last + 1 < len(one.statements) and not one.statements[last + 1].is_header:
        last += 1
    if last >= 0:
        return _pair_after(one, last, (key,), value)
    rows = pair_text((key,), value) + "\n"
    if one.statements:
        return put_rows(one, block_start(one, 0), f"{rows}\n")
    return put_rows(one, len(one.text), rows)


def add_dotted(one: Sheet, table: Trail, key: str, *, value: Value) -> str:
    """A further row in a table that stands only in dotted keys: `table.key = value`."""
    at = [n for n in one.under(table) if not one.statements[n].is_header][-1]
    return _pair_after(one, at, (*_names(table[len(one.base_of(at)) :]), key), value)


def add_header(one: Sheet, table: Trail, key: str, *, value: Value) -> str:
    """The first row of a table that stands only in longer headers, with its own header."""
    rows = table_text(_names(table), {key: value}) + "\n"
    return put_rows(one, block_start(one, one.under(table)[0]), rows)


def add_block(one: Sheet, table: Trail, key: str, *, value: Value) -> str:
    """A table, or a list of tables, with a header of its own, after all that `table` has."""
    names = (*_names(table), key)
    if isinstance(value, Mapping):
        blocks = [table_text(names, value)]
    else:
        blocks = [table_text(names, entry, entry=True) for entry in value]
    offset = block_end(one, one.under(table)[-1]) if table else len(one.text)
    return _put_blocks(one, offset, blocks)


def append_entry(one: Sheet, entries: Trail, value: Value) -> str:
    """One more `[[entry]]` after the last one of its list."""
    offset = block_end(one, one.under(entries)[-1])
    return _put_blocks(one, offset, [table_text(_names(entries), value, entry=True)])


def order_among(old: Sequence[Value], new: Sequence[Value]) -> list[int] | None:
    """Which old entry each new one is, by number; None unless all are the old ones, none twice."""
    if len(old) != len(new):
        return None
    by_text: dict[str, list[int]] = {}
    for at, entry in enumerate(old):
        by_text.setdefault(value_text(entry), []).append(at)
    order = [found.pop(0) if (found := by_text.get(value_text(one))) else -1 for one in new]
    return None if -1 in order else order


def stand_apart(one: Sheet, entries: Trail, count: int) -> bool:
    """Whether each entry of a list of tables has all its rows together in the text."""
    return all(len(_runs(one, one.under((*entries, at)))) == 1 for at in range(count))


def reorder_entries(one: Sheet, entries: Trail, order: Sequence[int]) -> str:
    """The entries of a list put into another order, each with its rows and comments.

    `order[n]` is the entry, by its number now, that comes to stand n-th. What stands between the
    entries stays where it is.
    """
    spans = [_span(one, (*entries, at)) for at in range(len(order))]
    rows = [one.text[start:end] for start, end in spans]
    rows = [row if row.endswith("\n") else row + one.row_ends for row in rows]
    text = one.text
    for (start, end), at in reversed(list(zip(spans, order, strict=True))):
        text = text[:start] + rows[at] + text[end:]
    return text


def _span(one: Sheet, entry: Trail) -> tuple[int, int]:
    """Where the rows of an entry whose rows stand together begin and end."""
    rows = one.under(entry)
    return block_start(one, rows[0]), block_end(one, rows[-1])


def drop_rows(one: Sheet, trail: Trail) -> str:
    """The text without any statement about the value at a trail.

    A table that stood only in what is dropped is written as an empty one.
    """
    text = one.text
    doomed = one.under(trail)
    left = _what_stays(one, trail, doomed) if one.is_lone(trail) else None
    for first, last in reversed(_runs(one, doomed)):
        begun = one.statements[first]
        if left is not None and first == doomed[0]:
            if begun.is_header:
                rows = left.replace("\n", one.row_ends)
                text = text[: block_start(one, first)] + rows + text[block_end(one, last) :]
            else:
                text = text[: begun.place.key] + left + text[begun.place.end :]
        elif begun.is_header:
            text = without_block(text, block_start(one, first), block_end(one, last))
        else:
            start = row_start(text, begun.place.key)
            text = text[:start] + text[row_end(text, begun.place.end) :]
    return text


def _what_stays(one: Sheet, trail: Trail, doomed: Sequence[int]) -> str:
    """The table around a trail, written as an empty one."""
    table, first = trail[:-1], doomed[0]
    if one.statements[first].is_header or one.kind(table) is not Kind.DOTTED:
        return f"[{key_text(_names(table))}]\n"
    return f"{key_text(_names(table[len(one.base_of(first)) :]))} = {{}}"


def _runs(one: Sheet, doomed: Sequence[int]) -> list[tuple[int, int]]:
    """Statements to be dropped together: a header with all that follows it, or a single pair."""
    runs: list[tuple[int, int]] = []
    for at in doomed:
        follows = bool(runs) and runs[-1][1] == at - 1 and one.statements[runs[-1][0]].is_header
        if follows:
            runs[-1] = (runs[-1][0], at)
        else:
            runs.append((at, at))
    return runs


def _pair_after(one: Sheet, at: int, names: Sequence[str], value: Value) -> str:
    """A row right after a statement, standing in as far as the row above it."""
    above = one.statements[at]
    indent = indent_at(one.text, above.place.key) or ""
    rows = pair_text(names, value, indent=indent) + "\n"
    return put_rows(one, row_end(one.text, above.place.end), rows)


def _put_blocks(one: Sheet, offset: int, blocks: Sequence[str]) -> str:
    """Blocks put in with an empty row before each, and one behind if text follows."""
    rows = "\n".join(blocks)
    if one.statements or one.text.strip():
        rows = f"\n{rows}"
    if not begins_blank(one.text, offset):
        rows = f"{rows}\n"
    return put_rows(one, offset, rows)


def _names(trail: Trail) -> tuple[str, ...]:
    """The keys of a trail as a header names them: the last entry of a list is meant by its list."""
    return tuple(part for part in trail if isinstance(part, str))
