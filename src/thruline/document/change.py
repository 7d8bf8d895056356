"""An edit applied to a text: what it says changes, and every other byte stays.

Comments, order, quotation marks and line ends are the person's. After each edit the new text is
read again and must hold exactly what the edit means on plain data; otherwise nothing is given out.
"""

import difflib
import tomllib
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import partial
from itertools import groupby
from typing import Any, NamedTuple, TypeAlias

from thruline.base.edit import Edit, EditKind
from thruline.base.errors import CannotUse
from thruline.document import blocks, inline
from thruline.document.naming import Trail, trail_of
from thruline.document.parse import Parsed
from thruline.document.places import BOM, Kind, Places, places
from thruline.document.plain import apply_to_data, at_trail, is_there, same, whole_removal
from thruline.document.read import read
from thruline.document.sheet import Sheet, row_ends_of, sheet
from thruline.document.write import Value, is_list_of_tables, stands_apart, value_text

_LONGEST_COMPARED = 500
"""Lists longer than this are written anew instead of being compared entry by entry."""

_INLINE = (Kind.PAIR, Kind.INNER, Kind.ITEM)


class _Cutting(NamedTuple):
    """A step that puts other words in the place of some, so that all others stay where they are.

    Many such steps in a row are made at once: a thousand cost as much as one.
    """

    cut: Callable[[Sheet], inline.Cut]


_Step: TypeAlias = Callable[[Sheet], str] | _Cutting
"""One change of a text; it expects the text as the steps before it have left it."""


def apply(text: str, edits: Iterable[Edit], *, file: str = "document") -> str:
    """The text with the edits applied, one after the other.

    Raises BadDocument when the text cannot be read, and CannotUse for an edit that has nothing to
    work on or that cannot be made without touching anything else.
    """
    text, data = read(text, file=file)
    return _applied(_Known(text, data, None), edits)


def apply_to(document: Parsed[Any], edits: Iterable[Edit]) -> str:
    """As `apply`, for a document that has been read already: this saves reading it again.

    Raises CannotUse for an edit that has nothing to work on or that cannot be made without
    touching anything else.
    """
    return _applied(_Known(document.text, document.data, document.places), edits)


class _Known(NamedTuple):
    """A text, what it holds, and where everything stands if that is known."""

    text: str
    data: Mapping[str, Any]
    where: Places | None


def _applied(known: _Known, edits: Iterable[Edit]) -> str:
    for edit in edits:
        wanted = apply_to_data(known.data, edit)
        known = _Known(_changed(known, edit, wanted), wanted, None)
    return known.text


def _changed(known: _Known, edit: Edit, wanted: Mapping[str, Any]) -> str:
    text, row_ends = known.text, row_ends_of(known.text)
    one = sheet(known.where or places(text), known.data, row_ends=row_ends)
    try:
        for at, steps in enumerate(_made_at_once(list(_steps(one, edit, wanted)))):
            now = sheet(places(text), _data(text), row_ends=row_ends) if at else one
            text = _stepped(now, steps)
        reads_as_wanted = same(_data(text), wanted)
    except tomllib.TOMLDecodeError:
        reads_as_wanted = False
    if not reads_as_wanted:
        raise CannotUse(
            f"{edit.address} cannot be changed without touching more; change it by hand"
        )
    return text


def _made_at_once(steps: Sequence[_Step]) -> Iterator[Sequence[_Step]]:
    """The steps one by one, but for runs of those that leave all else where it is."""
    for is_cutting, run in groupby(steps, key=lambda step: isinstance(step, _Cutting)):
        if is_cutting:
            yield list(run)
        else:
            yield from ([step] for step in run)


def _stepped(now: Sheet, steps: Sequence[_Step]) -> str:
    first = steps[0]
    if not isinstance(first, _Cutting):
        return first(now)
    cuts = [step.cut(now) for step in steps if isinstance(step, _Cutting)]
    return inline.with_cuts(now.text, cuts)


def _data(text: str) -> dict[str, Any]:
    return tomllib.loads(text.removeprefix(BOM))


def _steps(one: Sheet, edit: Edit, wanted: Mapping[str, Any]) -> Iterator[_Step]:
    """How the text comes to hold what is wanted."""
    trail = trail_of(one.data, edit.address)
    if edit.kind is EditKind.REMOVE:
        if is_there(one.data, trail):
            yield from _dropping(one, whole_removal(one.data, trail))
    elif not is_there(one.data, trail):
        depth = next(n for n in range(len(trail)) if not is_there(one.data, trail[: n + 1]))
        table, key = trail[:depth], str(trail[depth])
        yield partial(_add, table=table, key=key, value=at_trail(wanted, trail[: depth + 1]))
    elif edit.kind is EditKind.ADD:
        yield partial(_append, trail=trail, value=at_trail(wanted, trail)[-1])
    else:
        if one.kind(trail) is Kind.ENTRY and not isinstance(at_trail(wanted, trail), Mapping):
            trail = trail[:-1]
        yield from _becoming(one, trail, at_trail(wanted, trail))


def _becoming(one: Sheet, trail: Trail, new: Value) -> Iterator[_Step]:
    """How the value at a trail becomes another one, with as little change as can be."""
    old, kind = at_trail(one.data, trail), one.kind(trail)
    if same(old, new):
        return
    if isinstance(old, Mapping) and isinstance(new, Mapping):
        yield from _becoming_table(one, trail, old, new=new)
    elif kind is Kind.ENTRIES and is_list_of_tables(new):
        yield from _becoming_entries(one, trail, old, new=new)
    elif _compares(one, trail, old, new=new):
        yield from _becoming_items(one, trail, old, new=new)
    elif kind in _INLINE:
        yield _Cutting(partial(inline.other_value, trail=trail, value=new))
    else:
        yield from _dropping(one, trail)
        yield partial(_add, table=trail[:-1], key=str(trail[-1]), value=new)


def _becoming_table(
    one: Sheet, trail: Trail, old: Mapping[str, Any], *, new: Mapping[str, Any]
) -> Iterator[_Step]:
    was, becomes = _renaming(one, trail, old, new=new)
    if was is not None and becomes is not None:
        yield _Cutting(partial(inline.other_key, trail=(*trail, was), key=becomes))
    for key, value in new.items():
        if key in old:
            yield from _becoming(one, (*trail, key), value)
        elif key != becomes:
            yield partial(_add, table=trail, key=key, value=value)
    for key in old:
        if key not in new and key != was:
            yield from _dropping(one, (*trail, key))


def _renaming(
    one: Sheet, trail: Trail, old: Mapping[str, Any], *, new: Mapping[str, Any]
) -> tuple[str, str] | tuple[None, None]:
    """The one key of a table that is called otherwise in the new one, and what it is called."""
    gone, come = [key for key in old if key not in new], [key for key in new if key not in old]
    is_one = len(gone) == len(come) == 1 and same(old[gone[0]], new[come[0]])
    if is_one and inline.has_own_key(one, (*trail, gone[0])):
        return gone[0], come[0]
    return None, None


def _becoming_entries(
    one: Sheet, trail: Trail, old: Sequence[Any], *, new: Sequence[Any]
) -> Iterator[_Step]:
    order = blocks.order_among(old, new)
    if order and blocks.stand_apart(one, trail, len(old)):
        yield partial(blocks.reorder_entries, entries=trail, order=order)
        return
    for at, value in enumerate(new):
        if at < len(old):
            yield from _becoming(one, (*trail, at), value)
        else:
            yield partial(_append, trail=trail, value=value)
    for at in reversed(range(len(new), len(old))):
        yield from _dropping(one, (*trail, at))


def _compares(one: Sheet, trail: Trail, old: object, *, new: object) -> bool:
    """Whether an array is laid out in rows, whose comments a new one in its place would lose."""
    if not (isinstance(old, list) and isinstance(new, list) and new and old):
        return False
    place = one.where.of[trail]
    in_rows = one.kind(trail) in _INLINE and "\n" in one.text[place.start : place.end]
    return in_rows and max(len(old), len(new)) <= _LONGEST_COMPARED


def _becoming_items(
    one: Sheet, trail: Trail, old: Sequence[Any], *, new: Sequence[Any]
) -> Iterator[_Step]:
    """Entry by entry, from the last to the first, so that the numbers of earlier ones hold."""
    before, after = [value_text(item) for item in old], [value_text(item) for item in new]
    moves = difflib.SequenceMatcher(None, before, after, autojunk=False).get_opcodes()
    for _, start, stop, new_start, new_stop in reversed(moves):
        shared = min(stop - start, new_stop - new_start)
        added = new[new_start + shared : new_stop]
        if start + shared == len(old):
            yield from (partial(_append, trail=trail, value=item) for item in added)
        else:
            before_it = (*trail, start + shared)
            for item in reversed(added):
                yield partial(inline.insert_item, trail=before_it, value=item)
        for at in reversed(range(start + shared, stop)):
            yield partial(inline.drop_member, trail=(*trail, at))
        for at in range(shared):
            yield from _becoming(one, (*trail, start + at), new[new_start + at])


def _dropping(one: Sheet, trail: Trail) -> Iterator[_Step]:
    kind = one.kind(trail)
    if kind not in (Kind.INNER, Kind.ITEM, Kind.INNER_DOTTED):
        yield partial(blocks.drop_rows, trail=trail)
        return
    inside = inline.members(one, inline.container(one, trail[:-1]))
    doomed = [known for known, _ in inside if known[: len(trail)] == trail]
    for known in reversed(doomed[1:]):
        yield partial(inline.drop_member, trail=known)
    if one.is_lone(trail):
        yield partial(inline.empty_member, trail=doomed[0], table=trail[:-1])
    else:
        yield partial(inline.drop_member, trail=doomed[0])


def _append(one: Sheet, trail: Trail, value: Value) -> str:
    if one.kind(trail) is not Kind.ENTRIES:
        return inline.append_item(one, trail, value)
    if not isinstance(value, Mapping):
        raise CannotUse(f'only a table can be added to "{trail[-1]}"')
    return blocks.append_entry(one, trail, value)


def _add(one: Sheet, table: Trail, key: str, value: Value) -> str:
    """A key that the table does not have yet, written as its neighbours are."""
    kind = one.kind(table)
    if kind in (*_INLINE, Kind.INNER_DOTTED):
        return inline.append_member(one, table, key, value=value)
    if kind is Kind.DOTTED:
        return blocks.add_dotted(one, table, key, value=value)
    if stands_apart(key, value, at_root=not table):
        return blocks.add_block(one, table, key, value=value)
    if table and kind is Kind.IMPLIED:
        return blocks.add_header(one, table, key, value=value)
    return blocks.add_pair(one, table, key, value=value)
