"""Edits on plain data: what an edit means, without any text.

Changing a text is held against this: the changed text must read as exactly this data.
"""

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, TypeAlias, cast

from thruline.base.address import Address
from thruline.base.edit import Edit, EditKind
from thruline.base.errors import CannotUse
from thruline.document.naming import Trail, trail_of
from thruline.document.places import MAX_DEPTH

Table: TypeAlias = dict[str, Any]


def apply_to_data(data: Mapping[str, Any], edit: Edit) -> Table:
    """The data with one edit applied; what was given is not changed.

    Tables on the way to a new key are made, and a key that is not there needs no removal. A list
    that loses its last table goes with it, since a list of tables without any cannot be written; a
    list that loses its last plain value stays, and so does a table that loses its last key. Raises
    CannotUse for an edit that has nothing to work on.
    """
    trail = trail_of(data, edit.address)
    if not trail:
        raise CannotUse("an edit needs an address; one reads like unit[delay].channel")
    match edit.kind:
        case EditKind.SET:
            return cast(Table, _set(data, trail, _copy(edit.value), edit.address))
        case EditKind.ADD:
            entries = at_trail(data, trail) if is_there(data, trail) else []
            if not isinstance(entries, list):
                raise CannotUse(f"{edit.address} is not a list, so nothing can be added to it")
            return cast(Table, _set(data, trail, [*entries, _copy(edit.value)], edit.address))
        case EditKind.REMOVE:
            if not is_there(data, trail):
                return dict(data)
            return cast(Table, _removed(data, whole_removal(data, trail)))


def is_too_deep(data: Mapping[str, Any]) -> bool:
    """Whether a table or list in the data stands MAX_DEPTH keys and indexes deep, or deeper."""
    level: list[Any] = [data]
    for _ in range(MAX_DEPTH):
        level = [inner for held in level for inner in _values(held) if _holds_others(inner)]
        if not level:
            return False
    return True


def whole_removal(data: object, trail: Trail) -> Trail:
    """What really goes when the value at the trail is removed: the list with its last table."""
    if isinstance(trail[-1], int):
        entries = at_trail(data, trail[:-1])
        if len(entries) == 1 and isinstance(entries[0], Mapping):
            return whole_removal(data, trail[:-1])
    return trail


def is_there(data: object, trail: Trail) -> bool:
    """Whether there is anything at the trail."""
    here = data
    for part in trail:
        if isinstance(part, str):
            if not isinstance(here, Mapping) or part not in here:
                return False
            here = here[part]
        else:
            if not isinstance(here, list) or not 0 <= part < len(here):
                return False
            here = here[part]
    return True


def at_trail(data: object, trail: Trail) -> Any:  # noqa: ANN401 - anything TOML can hold
    """What is at the trail, which must be there."""
    here: Any = data
    for part in trail:
        here = here[part]
    return here


def same(one: object, other: object) -> bool:
    """Whether two values are the same to the last detail.

    Unlike `==` this tells 1 from 1.0 and from true, 0.0 from -0.0, and calls two not-a-numbers the
    same.
    """
    if one is other:
        return True
    if isinstance(one, Mapping) and isinstance(other, Mapping):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if _is_list(one) and _is_list(other):
        first, second = cast(Sequence[object], one), cast(Sequence[object], other)
        return len(first) == len(second) and all(map(same, first, second))
    if type(one) is not type(other):
        return False
    if isinstance(one, float) and isinstance(other, float):
        if math.isnan(one) or math.isnan(other):
            return math.isnan(one) and math.isnan(other)
        return one == other and math.copysign(1, one) == math.copysign(1, other)
    return one == other


def _values(held: Any) -> Iterable[object]:  # noqa: ANN401 - a table or a list
    return held.values() if isinstance(held, Mapping) else held


def _holds_others(value: object) -> bool:
    return isinstance(value, Mapping) or _is_list(value)


def _is_list(value: object) -> bool:
    return isinstance(value, Sequence) and not isinstance(value, str | bytes)


def _copy(value: object) -> Any:  # noqa: ANN401 - anything TOML can hold
    """A value in plain dicts and lists of its own."""
    if isinstance(value, Mapping):
        return {key: _copy(inner) for key, inner in value.items()}
    if _is_list(value):
        return [_copy(inner) for inner in cast(Sequence[object], value)]
    if value is None:
        raise CannotUse("an edit that sets or adds needs a value")
    return value


def _set(here: object, trail: Trail, value: object, address: Address) -> object:
    if not trail:
        return value
    part, rest = trail[0], trail[1:]
    if isinstance(part, int):
        entries = list(cast(list[object], here))
        entries[part] = _set(entries[part], rest, value, address)
        return entries
    if here is not None and not isinstance(here, Mapping):
        raise CannotUse(f'{address}: there is no "{part}" in what is not a table')
    table = dict(here or {})
    table[part] = _set(table.get(part), rest, value, address)
    return table


def _removed(here: object, trail: Trail) -> object:
    part, rest = trail[0], trail[1:]
    if isinstance(part, int):
        entries = list(cast(list[object], here))
        if rest:
            entries[part] = _removed(entries[part], rest)
        else:
            del entries[part]
        return entries
    table = dict(cast(Mapping[str, object], here))
    if rest:
        table[part] = _removed(table[part], rest)
    else:
        del table[part]
    return table
