"""Edits as other programs send them, and in words for the list of revisions."""

from collections.abc import Mapping, Sequence
from typing import Any

from thruline.app.clash import shown, value_at
from thruline.base.address import Step, read_address
from thruline.base.edit import Edit, EditKind, Plain
from thruline.base.errors import CannotUse
from thruline.document.problems import brief

MOST_EDITS = 4096
LONGEST_WORDS = 160
MOST_TOLD = 4
"""So many edits are told, the rest is counted."""


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


def edits_in_words(edits: Sequence[Edit], data: Mapping[str, Any]) -> str:
    """What edits of a document do, for the list of revisions, cut where it is long.

    `data` is what the document holds before them: `unit delay, channel: 4 (was 3)`.
    """
    says = "; ".join(_in_words(edit, data) for edit in edits[:MOST_TOLD])
    more = f" and {len(edits) - MOST_TOLD} more" if len(edits) > MOST_TOLD else ""
    room = LONGEST_WORDS - len(more)
    return (says if len(says) <= room else says[: room - 1] + "…") + more


def _in_words(edit: Edit, data: Mapping[str, Any]) -> str:
    where = ", ".join(_step_words(step) for step in edit.address.steps)
    if edit.kind is EditKind.ADD:
        return f"added to {where}: {_brief(edit.value)}"
    before = value_at(data, edit.address)
    if edit.kind is EditKind.REMOVE:
        return f"{where}: taken out" + (f" (was {_brief(before)})" if before is not None else "")
    was = f" (was {_brief(before)})" if before is not None else ""
    return f"{where}: {_brief(edit.value)}{was}"


def _step_words(step: Step) -> str:
    key = step.key.replace("-", " ") if step.entry is None else step.key
    return key if step.entry is None else f"{key} {step.entry}"


def _brief(value: object) -> str:
    return brief(shown(value))
