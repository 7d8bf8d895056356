"""Edits as other programs send them, and in words for the list of revisions."""

from collections.abc import Mapping, Sequence

from thruline.base.address import read_address
from thruline.base.edit import Edit, EditKind, Plain
from thruline.base.errors import CannotUse

MOST_EDITS = 4096
LONGEST_WORDS = 160


def read_edits(given: object) -> tuple[Edit, ...]:
    """Edits from JSON: a list of `{"do": "set", "address": "unit[delay].channel", "value": 3}`.

    Raises CannotUse, saying which of them makes no sense.
    """
    if not isinstance(given, Sequence) or isinstance(given, str) or not given:
        raise CannotUse('a list of edits is wanted, such as [{"do": "set", "address": "rig.name"}]')
    if len(given) > MOST_EDITS:
        raise CannotUse(f"at most {MOST_EDITS} edits are made at once")
    return tuple(_read(one, place) for place, one in enumerate(given, 1))


def _read(one: object, place: int) -> Edit:
    if not isinstance(one, Mapping):
        raise CannotUse(f"edit {place} is not an object")
    kind, address, value = one.get("do"), one.get("address"), one.get("value")
    if kind not in {each.value for each in EditKind} or not isinstance(address, str):
        raise CannotUse(f'edit {place} needs "do" (set, add or remove) and an "address"')
    if (value is None) is not (kind == EditKind.REMOVE):
        raise CannotUse(f"edit {place}: set and add need a value, remove has none")
    return Edit(EditKind(kind), read_address(address), _plain(value, place))


def _plain(value: object, place: int) -> "Plain | None":
    match value:
        case None | str() | bool() | int() | float():
            return value
        case Mapping():
            return {str(key): _part(inner, place) for key, inner in value.items()}
        case list():
            return [_part(inner, place) for inner in value]
        case _:
            raise CannotUse(f"edit {place} has a value that a document cannot hold")


def _part(value: object, place: int) -> "Plain":
    plain = _plain(value, place)
    if plain is None:
        raise CannotUse(f"edit {place} has an empty value inside; leave its key out instead")
    return plain


def edits_in_words(edits: Sequence[Edit]) -> str:
    """What edits do, for the list of revisions: `set unit[delay].channel`, cut where it is long."""
    says = ", ".join(f"{edit.kind.value} {edit.address}" for edit in edits[:4])
    more = f" and {len(edits) - 4} more" if len(edits) > 4 else ""
    room = LONGEST_WORDS - len(more)
    return (says if len(says) <= room else says[: room - 1] + "…") + more
