"""Pydantic's errors, brought from where its validators stood to where the data stands.

Where a value may have one of several shapes, pydantic tells what is wrong with it in each of them.
A person wants to hear about one: the shape that was meant, or that it fits none.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from pydantic_core import ErrorDetails

from thruline.document.naming import Trail

NO_SHAPE = "no_shape"
"""The kind of a misfit that fits none of several shapes."""

_OF_KEY = "[key]"  # how pydantic marks an error that is about a key and not about its value
_MOST_READINGS = 256
_OTHER_KIND = frozenset(
    {
        "bool_type", "bytes_type", "callable_type", "date_type", "datetime_type", "dict_type",
        "enum", "float_type", "int_from_float", "int_type", "is_instance_of", "list_type",
        "literal_error", "mapping_type", "model_attributes_type", "model_type", "none_required",
        "set_type", "string_type", "time_type", "tuple_type",
    }
)  # fmt: skip
"""Errors that say: this value is of another kind altogether."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Misfit:
    """One error at one place in the data.

    `tags` are the shapes that pydantic tried on the way, each with the number of parts of the trail
    that lead to the value it was tried on.
    """

    kind: str
    trail: Trail
    tags: tuple[tuple[int, str], ...] = ()
    of_key: bool = False
    value: Any = None
    context: Mapping[str, Any]
    says: str
    """Pydantic's own words; a validator's, where the error comes from one."""


def misfits(errors: Iterable[ErrorDetails], data: object) -> list[Misfit]:
    """The errors as misfits, with one left for each value that may have several shapes."""
    return _settled([_misfit(error, data) for error in errors])


def _misfit(error: ErrorDetails, data: object) -> Misfit:
    kind, loc, value = error["type"], error["loc"], error["input"]
    context = error.get("ctx", {})
    says = str(context["error"]) if "error" in context else error["msg"]
    of_key = bool(loc) and loc[-1] == _OF_KEY
    if of_key:
        trail, tags = _located(data, loc[:-1], None)
    elif kind == "missing":
        trail, tags = _located(data, loc[:-1], value)
        trail = (*trail, loc[-1])
    else:
        trail, tags = _located(data, loc, value)
    named = context.get("discriminator", "").strip("'")
    if kind in ("union_tag_invalid", "union_tag_not_found") and "(" not in named:
        trail = (*trail, named)
        kind = "literal_error" if kind == "union_tag_invalid" else "missing"
        value = value.get(named, value) if isinstance(value, Mapping) else value
    elif kind in ("union_tag_invalid", "union_tag_not_found"):
        kind = NO_SHAPE
    return Misfit(
        kind=kind, trail=trail, tags=tags, of_key=of_key, value=value, context=context, says=says
    )


def _located(
    data: object, loc: Sequence[str | int], wanted: object
) -> tuple[Trail, tuple[tuple[int, str], ...]]:
    """The trail in the data that pydantic's `loc` means, and the shapes that it names besides.

    A part may be a key or a shape of the same name; that reading is right which leads to the very
    object that pydantic complained of.
    """
    first: tuple[Trail, tuple[tuple[int, str], ...]] | None = None
    readings: list[tuple[int, object, Trail, tuple[tuple[int, str], ...]]] = [(0, data, (), ())]
    for _ in range(_MOST_READINGS):
        if not readings:
            break
        at, here, trail, tags = readings.pop()
        while at < len(loc):
            part = loc[at]
            at += 1
            skipped = (*tags, (len(trail), str(part)))
            if isinstance(here, Mapping) and part in here:
                readings.append((at, here, trail, skipped))
                here, trail = here[part], (*trail, part)
            elif isinstance(here, list) and isinstance(part, int) and part < len(here):
                here, trail = here[part], (*trail, part)
            else:
                tags = skipped
        if here is wanted:
            return trail, tags
        first = first or (trail, tags)
    return first or ((), ())


def _settled(found: Sequence[Misfit]) -> list[Misfit]:
    """What is left when one shape has been picked wherever several were tried."""
    left: list[Misfit] = []
    groups: dict[Trail, list[Misfit]] = {}
    for misfit in found:
        if misfit.tags:
            groups.setdefault(misfit.trail[: misfit.tags[0][0]], []).append(misfit)
        else:
            left.append(misfit)
    for trail, group in groups.items():
        left += _settled_group(trail, group)
    return left


def _settled_group(trail: Trail, group: Sequence[Misfit]) -> list[Misfit]:
    by_shape: dict[str, list[Misfit]] = {}
    for misfit in group:
        by_shape.setdefault(misfit.tags[0][1], []).append(replace(misfit, tags=misfit.tags[1:]))
    if len(by_shape) == 1:
        return _settled(next(iter(by_shape.values())))
    settled = [_settled(one) for one in by_shape.values()]
    likely = [one for one in settled if not any(_of_other_kind(misfit, trail) for misfit in one)]
    inside = [one for one in likely if any(len(misfit.trail) > len(trail) for misfit in one)]
    if inside:
        return min(inside, key=len)
    if len(likely) == 1 and likely[0][0].kind != NO_SHAPE:
        return likely[0]
    value = next((one.value for one in group if len(one.trail) == len(trail)), group[0].value)
    return [Misfit(kind=NO_SHAPE, trail=trail, value=value, context={}, says="")]


def _of_other_kind(misfit: Misfit, trail: Trail) -> bool:
    return len(misfit.trail) == len(trail) and misfit.kind in (*_OTHER_KIND, NO_SHAPE)
