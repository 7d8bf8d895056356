"""Changes inside a value: items of an array, pairs of an inline table."""

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from thruline.document.naming import Trail
from thruline.document.places import Kind, Place
from thruline.document.plain import at_trail
from thruline.document.sheet import Sheet, indent_at, row_end, row_start
from thruline.document.write import WIDTH, Value, key_text, rows_text, value_text

_SPACE = re.compile(r"(?:[ \t\r\n]++|#[^\n]*+)*+")
_TO_ROW_END = re.compile(r"[ \t]*(?:#[^\n]*|\r)?(?=\n)")
_VALUES = (Kind.PAIR, Kind.INNER, Kind.ITEM)


class Cut(NamedTuple):
    """A part of a text and what stands there instead."""

    start: int
    end: int
    text: str


def with_cuts(text: str, cuts: Iterable[Cut]) -> str:
    """The text with other words in some places, none of which lies in another."""
    parts, done = [], 0
    for cut in sorted(cuts):
        parts += [text[done : cut.start], cut.text]
        done = cut.end
    return "".join([*parts, text[done:]])


def other_value(one: Sheet, trail: Trail, value: Value) -> Cut:
    """Another value in the place of the one at the trail, laid out in rows if that one was."""
    text, place = one.text, one.where.of[trail]
    indent = indent_at(text, place.key) or ""
    old = text[place.start : place.end]
    if place.kind is not Kind.PAIR:
        new = value_text(value)
    elif isinstance(value, list) and value and old.startswith("[") and "\n" in old:
        new = rows_text(value, indent=indent)
    else:
        column = place.start - row_start(text, place.start)
        new = value_text(value, room=WIDTH - column, indent=indent)
    return Cut(place.start, place.end, new.replace("\n", one.row_ends))


def has_own_key(one: Sheet, trail: Trail) -> bool:
    """Whether the value at the trail has a key that names it alone, with no dot in it."""
    own = one.kind(trail) in (Kind.PAIR, Kind.INNER)
    return own and one.kind(trail[:-1]) not in (Kind.DOTTED, Kind.INNER_DOTTED)


def other_key(one: Sheet, trail: Trail, key: str) -> Cut:
    """Another key for the value at the trail, which has a key of its own."""
    place = one.where.of[trail]
    return Cut(place.key, place.key_end, key_text((key,)))


def append_item(one: Sheet, trail: Trail, value: Value) -> str:
    """One more item at the end of an array; in a row of its own where the last one has one."""
    text, around, new = one.text, one.where.of[trail], value_text(value)
    items = members(one, trail)
    if not items:
        return _into_empty(text, around, new)
    last = items[-1][1]
    indent = indent_at(text, last.start)
    ends = row_end(text, last.end)
    if indent is None or "\n" not in text[around.start : last.start] or ends >= around.end:
        return f"{text[: last.end]}, {new}{text[last.end :]}"
    comma = _comma(text, last.end)
    if comma is None:
        row = f"{indent}{new}{one.row_ends}"
        return f"{text[: last.end]},{text[last.end : ends]}{row}{text[ends:]}"
    if comma < ends:
        row = f"{indent}{new},{one.row_ends}"
        return text[:ends] + row + text[ends:]
    return f"{text[: last.end]}, {new}{text[last.end :]}"


def insert_item(one: Sheet, trail: Trail, value: Value) -> str:
    """One more item in front of the item at the trail."""
    text, place, new = one.text, one.where.of[trail], value_text(value)
    around = one.where.of[trail[:-1]]
    indent = indent_at(text, place.start)
    if indent is not None and "\n" in text[around.start : place.start]:
        begins = row_start(text, place.start)
        return text[:begins] + f"{indent}{new},{one.row_ends}" + text[begins:]
    return f"{text[: place.start]}{new}, {text[place.start :]}"


def append_member(one: Sheet, table: Trail, key: str, *, value: Value) -> str:
    """One more pair in an inline table, or in a table that stands in dotted keys of one."""
    around = container(one, table)
    new = f"{key_text([*map(str, table[len(around) :]), key])} = {value_text(value)}"
    pairs = members(one, around)
    if not pairs:
        return _into_empty(one.text, one.where.of[around], f" {new} ")
    last = pairs[-1][1]
    return f"{one.text[: last.end]}, {new}{one.text[last.end :]}"


def empty_member(one: Sheet, trail: Trail, table: Trail) -> str:
    """The pair at the trail replaced by an empty `table`, which stands in the key of that pair."""
    place = one.where.of[trail]
    new = f"{key_text([*map(str, table[len(container(one, table)) :])])} = {{}}"
    return one.text[: place.key] + new + one.text[place.end :]


def drop_member(one: Sheet, trail: Trail) -> str:
    """The text without one item of an array or one pair of an inline table, and its comma.

    Comments stay, but for one that shares its row with nothing else than what is dropped.
    """
    text = one.text
    around = one.where.of[container(one, trail[:-1])]
    inside = [place for _, place in members(one, container(one, trail[:-1]))]
    at = next(n for n, place in enumerate(inside) if place == one.where.of[trail])
    begins, ends = inside[at].key, inside[at].end
    comma = _comma(text, ends)
    stop = ends if comma is None else comma + 1
    rest = _TO_ROW_END.match(text, stop)
    if indent_at(text, begins) is not None and rest and row_end(text, stop) < around.end:
        return text[: row_start(text, begins)] + text[row_end(text, stop) :]
    if comma is not None:
        return text[:begins] + text[ends:comma].lstrip(" \t") + text[stop:].lstrip(" \t")
    if at:
        before = _past_space(text, inside[at - 1].end)
        return text[:before] + text[before + 1 : begins].rstrip(" \t") + text[ends:]
    return text[: around.start] + text[around.start : begins].rstrip(" \t") + text[ends:]


def members(one: Sheet, around: Trail) -> list[tuple[Trail, Place]]:
    """The items or pairs right inside an array or inline table, in the order of the text."""
    return sorted(_members(one, around), key=lambda member: member[1].key)


def _members(one: Sheet, trail: Trail) -> Iterator[tuple[Trail, Place]]:
    value = at_trail(one.data, trail)
    for part in range(len(value)) if isinstance(value, list) else value:
        place = one.where.of[(*trail, part)]
        if place.kind is Kind.INNER_DOTTED:
            yield from _members(one, (*trail, part))
        else:
            yield (*trail, part), place


def container(one: Sheet, trail: Trail) -> Trail:
    """The array or inline table that the table at the trail is or stands in."""
    while one.kind(trail) not in _VALUES:
        trail = trail[:-1]
    return trail


def _into_empty(text: str, around: Place, new: str) -> str:
    """An array or inline table without anything in it but blanks and comments, with one member."""
    inner = text[around.start + 1 : around.end - 1]
    before = around.end - 1 if inner.strip() else around.start + 1
    return f"{text[:before]}{new}{text[around.end - 1 :]}"


def _comma(text: str, offset: int) -> int | None:
    """Where the comma behind a value stands, if there is one."""
    offset = _past_space(text, offset)
    return offset if text.startswith(",", offset) else None


def _past_space(text: str, offset: int) -> int:
    found = _SPACE.match(text, offset)
    return offset if found is None else found.end()
