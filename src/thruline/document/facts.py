"""A document as facts that a person can fill in one by one, and what is typed read back.

Which facts there can be, what belongs there and an example all come from the document's shape.
"""

import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic import ConfigDict, TypeAdapter, ValidationError
from pydantic.fields import FieldInfo

from thruline.base.address import Address
from thruline.base.edit import Plain
from thruline.base.errors import CannotUse
from thruline.document.belongs import belongs, example_in
from thruline.document.known import known_at
from thruline.document.misfits import nearest
from thruline.document.naming import Trail, labels
from thruline.document.problems import brief
from thruline.document.shape import Shape
from thruline.document.unseen import unseen
from thruline.document.write import value_text

_BETWEEN = re.compile(r"\s*,\s*(?![^\[]*\])")
"""A comma that parts two items; not one inside brackets, as in `feet.loop-1[drive, boost]`."""
_UNSURE = re.compile(r'[,"=]|^\s|\s$|^$')
MOST_CHOICES, FEW_CHOICES = 24, 6
"""More words than the first are not all told to somebody who wrote another; the second are."""
_WORDS = {"yes": True, "no": False}


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One value: where it stands, as a person would type it, and what belongs there."""

    address: Address
    key: str
    typed: str
    says: str
    example: str
    choices: tuple[str, ...]
    usual: str
    is_required: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Clause:
    """A table of a document, or a list of tables.

    `blank` holds what must be given before it, or one more entry, can be added.
    """

    address: Address
    key: str
    says: str
    is_list: bool
    is_given: bool
    label: str = ""
    blank: tuple[Fact, ...] = ()
    facts: tuple[Fact, ...] = ()
    parts: tuple["Clause", ...] = ()
    """The clauses inside a table; the entries of a list."""


def clauses(model: type[Shape], data: Mapping[str, Any]) -> Iterator[Clause]:
    """Every clause at the top of a document, also those that are not given yet."""
    yield from _inside(model, data, Address(()))


def _inside(model: type[Shape], data: Mapping[str, Any], at: Address) -> Iterator[Clause]:
    for key, field in _keys(model):
        inner, is_list = _table(field)
        if inner is not None:
            yield _clause(inner, field, at.child(key), is_list=is_list, value=data.get(key))


def _clause(
    inner: type[Shape],
    field: FieldInfo,
    at: Address,
    *,
    is_list: bool,
    value: Any,  # noqa: ANN401 - as tomllib gives it
) -> Clause:
    key = at.steps[-1].key
    blank = tuple(one for one in _facts(inner, {}, at) if one.is_required)
    says = _told(inner, field)
    if not is_list:
        facts = tuple(_facts(inner, value or {}, at))
        parts = tuple(_inside(inner, value or {}, at)) if value is not None else ()
        return Clause(
            address=at, key=key, says=says, is_list=False, is_given=value is not None,
            blank=blank, facts=facts, parts=parts,
        )  # fmt: skip
    parts = tuple(
        _entry(inner, at.parent.child(key, label), one)
        for label, one in zip(labels(key, value or []), value or [], strict=True)
    )
    return Clause(
        address=at, key=key, says=says, is_list=True, is_given=bool(parts), blank=blank,
        parts=parts,
    )  # fmt: skip


def _entry(inner: type[Shape], at: Address, value: Mapping[str, Any]) -> Clause:
    step = at.steps[-1]
    return Clause(
        address=at, key=step.key, says="", is_list=False, is_given=True, label=step.entry or "",
        facts=tuple(_facts(inner, value, at)), parts=tuple(_inside(inner, value, at)),
    )  # fmt: skip


def _facts(model: type[Shape], data: Mapping[str, Any], at: Address) -> Iterator[Fact]:
    for key, field in _keys(model):
        if _table(field)[0] is None:
            usual = field.get_default(call_default_factory=True)
            yield Fact(
                address=at.child(key),
                key=key,
                typed=value_to_typed(data[key]) if key in data else "",
                says=_notes(field)[0],
                example=_notes(field)[1],
                choices=_choices(field.annotation),
                usual="" if field.is_required() or usual is None else value_to_typed(usual),
                is_required=field.is_required(),
            )


def _keys(model: type[Shape]) -> Iterator[tuple[str, FieldInfo]]:
    for name, field in model.model_fields.items():
        if name != "format":
            yield field.alias or name, field


def _notes(field: FieldInfo) -> tuple[str, str]:
    """What is said about a field and an example, wherever in its annotation they stand."""
    noted = [field, *_inner_notes(field.annotation)]
    says = next((one.description for one in noted if one.description), "")
    example = next((one.examples[0] for one in noted if one.examples), "")
    return says, value_to_typed(example)


def _inner_notes(annotation: object) -> Iterator[FieldInfo]:
    if get_origin(annotation) is Annotated:
        yield from (one for one in get_args(annotation)[1:] if isinstance(one, FieldInfo))
    for inner in get_args(annotation):
        if get_origin(inner) in (Annotated, Union, UnionType):
            yield from _inner_notes(inner)


def _told(inner: type[Shape], field: FieldInfo) -> str:
    return field.description or " ".join((inner.__doc__ or "").split())


def _table(field: FieldInfo) -> tuple[type[Shape] | None, bool]:
    """The shape of a table that stands in a field, and whether it is a list of them."""
    for one in _kinds(field.annotation):
        if isinstance(one, type) and issubclass(one, Shape):
            return one, False
        if get_origin(one) is list:
            inner = get_args(one)[0]
            if isinstance(inner, type) and issubclass(inner, Shape):
                return inner, True
    return None, False


def _kinds(annotation: object) -> Iterator[Any]:
    """What an annotation allows, without what is said about it."""
    if get_origin(annotation) is Annotated:
        yield from _kinds(get_args(annotation)[0])
    elif get_origin(annotation) in (Union, UnionType):
        for one in get_args(annotation):
            yield from _kinds(one)
    elif annotation is not NoneType:
        yield annotation


def _choices(annotation: object) -> tuple[str, ...]:
    """The only words that can stand there; empty when other things can."""
    found: list[str] = []
    for one in _kinds(annotation):
        if one is bool:
            found += _WORDS
        elif get_origin(one) is Literal:
            found += map(str, get_args(one))
        else:
            return ()
    return tuple(found)


def value_to_typed(value: Any) -> str:  # noqa: ANN401 - as tomllib gives it
    """A value as a person types it: `yes`, `11, 12`, `thru = thru-soft`; the way back from it."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    if isinstance(value, Mapping) and _are_plain([*value, *value.values()]):
        return ", ".join(f"{key} = {one}" for key, one in value.items())
    if isinstance(value, list) and (_are_plain(value) or _are_numbers(value)):
        return ", ".join(map(str, value))
    return value_text(value)


def _are_plain(values: Sequence[object]) -> bool:
    return all(isinstance(one, str) and not _UNSURE.search(one) for one in values) and (
        _BETWEEN.split(", ".join(map(str, values))) == list(values)
    )


def _are_numbers(values: Sequence[object]) -> bool:
    return bool(values) and all(type(one) is int for one in values)


def typed_to_value(model: type[Shape], address: Address, text: str) -> Plain:
    """What is typed for a fact, as the document holds it.

    Raises CannotUse, with what belongs there and an example, when it is not understood.
    """
    field, _ = _field(model, address)
    reader: TypeAdapter[Any] = TypeAdapter(
        field.rebuild_annotation(), config=ConfigDict(strict=True, allow_inf_nan=False)
    )
    meant: Plain
    for meant in _readings(text.strip()):
        try:
            reader.validate_python(meant)
        except ValidationError:
            continue
        else:
            if wrong := next(unseen({address.steps[-1].key: meant}), None):
                raise CannotUse(f"{wrong.says}: {address.steps[-1].key}")
            return meant
    raise CannotUse(_not_understood(model, address, text))


def _readings(text: str) -> Iterator[Any]:
    """All that a text may mean, the likeliest first."""
    yield text
    if text.lower() in _WORDS:
        yield _WORDS[text.lower()]
    if '"' not in text:
        items = _BETWEEN.split(text) if text else []
        yield items
        pairs = [one.partition("=") for one in items]
        if all(equal for _, equal, _ in pairs):
            yield {key.strip(): one.strip() for key, _, one in pairs}
    for written in (text, f"[{text}]", f"{{{text}}}"):
        try:
            yield tomllib.loads(f"x = {written}")["x"]
        except (tomllib.TOMLDecodeError, RecursionError):
            continue


def _not_understood(model: type[Shape], address: Address, text: str) -> str:
    """What was typed, what belongs there, and an example unless every word is told."""
    field, trail = _field(model, address)
    head = f'"{brief(text)}" is not understood as {address.steps[-1].key}'
    if choices := _choices(field.annotation):
        return f"{head}; write {_one_of(choices, text)}"
    known = known_at(model, {}, trail)
    usual = None if field.is_required() else field.get_default(call_default_factory=True)
    example = example_in(known, usual)
    shown = "" if example is None else f", for example {value_to_typed(example)}"
    return f"{head}; write {belongs(known)}{shown}"


def _one_of(choices: Sequence[str], text: str) -> str:
    """The words to choose from; of very many the nearest one, if any is near, and how many more."""
    if len(choices) <= MOST_CHOICES:
        return f"one of {', '.join(choices)}"
    near = nearest(text, choices)
    shown = [near] if near else choices[:FEW_CHOICES]
    return f"one of {', '.join(shown)} and {len(choices) - len(shown)} more that can be chosen"


def _field(model: type[Shape], address: Address) -> tuple[FieldInfo, Trail]:
    """The field of a shape that an address leads to, and the trail to it in a first entry of all.

    Raises CannotUse when there is none.
    """
    here: type[Shape] | None = model
    found: FieldInfo | None = None
    trail: Trail = ()
    for step in address.steps:
        found = dict(_keys(here)).get(step.key) if here is not None else None
        if found is None:
            raise CannotUse(f"there is no fact {address}")
        here, is_list = _table(found)
        trail = (*trail, step.key, 0) if is_list else (*trail, step.key)
    if found is None or here is not None:
        raise CannotUse(f"{address} is not one fact, but holds others")
    return found, trail
