"""What does not fit a model, as problems: each at its spot, with what is allowed and an example."""

import difflib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import islice
from typing import Any

from pydantic import BaseModel, ValidationError

from thruline.base.spot import Spot
from thruline.document.known import (
    Known,
    allowed,
    example,
    key_names,
    keys,
    known_at,
    one_of,
    words,
)
from thruline.document.naming import Trail, address_of
from thruline.document.places import Kind, Place, Places
from thruline.document.plain import at_trail
from thruline.document.problems import MOST_SHOWN, Problem, brief, excerpt
from thruline.document.says import said_of
from thruline.document.unions import NO_SHAPE, Misfit, misfits
from thruline.document.write import Value, is_list_of_tables, pair_text, table_text, value_text

_ALIKE = 0.6
"""How alike two words must be (difflib's ratio) for one to be offered for the other."""

_MOST_COMPARED = 1000
"""Unknown keys that are held against the missing ones; beyond, a missing key may be told twice."""

_TOLD_ANYWAY = ("a list [ ]", "a table { }", "true or false")
_VALUE_KINDS = (Kind.PAIR, Kind.INNER, Kind.ITEM)


@dataclass(frozen=True, slots=True)
class _Scene:
    """A document and the model it should fit."""

    where: Places
    data: Mapping[str, Any]
    model: type[BaseModel]
    file: str


def misfit_problems(
    error: ValidationError,
    where: Places,
    data: Mapping[str, Any],
    *,
    model: type[BaseModel],
    file: str,
) -> tuple[list[Problem], int]:
    """All misfits in the order of the text, up to MOST_SHOWN, and how many more there are."""
    scene = _Scene(where, data, model, file)
    newer = _newer_format(scene)
    if newer is not None:
        return [newer], 0
    found = _without_doubles(misfits(error.errors(include_url=False), data), scene)
    spotted = sorted(((_spot(one, scene), at, one) for at, one in enumerate(found)), key=_in_order)
    told = [_problem(one, spot, scene) for spot, _, one in spotted[:MOST_SHOWN]]
    return told, len(found) - len(told)


def _in_order(spotted: tuple[Spot, int, Misfit]) -> tuple[Spot, int]:
    return spotted[0], spotted[1]


def nearest(found: str, known: Sequence[str]) -> str | None:
    """The known word most like the one found, if any is like it at all."""
    return _nearest(found, tuple(known))


@lru_cache(maxsize=256)
def _nearest(found: str, known: tuple[str, ...]) -> str | None:
    matcher = difflib.SequenceMatcher(b=found.lower(), autojunk=False)
    best, best_ratio = None, _ALIKE
    for word in known:
        matcher.set_seq1(word.lower())
        if matcher.real_quick_ratio() > best_ratio and matcher.ratio() > best_ratio:
            best, best_ratio = word, matcher.ratio()
    return best


def _newer_format(scene: _Scene) -> Problem | None:
    """A document of a newer format: its other misfits are no mistakes, so they are not told."""
    found = scene.data.get("format")
    readable = words(known_at(scene.model, scene.data, ("format",)))
    numbers = [word for word in readable if type(word) is int]
    if type(found) is not int or not numbers or found <= max(numbers):
        return None
    spot = _span_spot(scene, ("format",))
    says = (
        f"this document is of format {found}, which is newer than this thruline: it reads format "
        f"{one_of(numbers)}. Bring thruline up to date, or ask for the document in that format"
    )
    return Problem(spot=spot, says=says, found=str(found), excerpt=excerpt(scene.where, spot))


def _without_doubles(found: Sequence[Misfit], scene: _Scene) -> list[Misfit]:
    """Without a missing key that an unknown key in the same table was surely meant to be."""
    missing = {one.trail for one in found if one.kind == "missing"}
    tables = {trail[:-1] for trail in missing}
    unknown = (one for one in found if one.kind == "extra_forbidden" and one.trail[:-1] in tables)
    meant = {(*one.trail[:-1], _nearest_key(one, scene)) for one in islice(unknown, _MOST_COMPARED)}
    return [one for one in found if one.kind != "missing" or one.trail not in meant]


def _nearest_key(one: Misfit, scene: _Scene) -> str | None:
    table = one.trail[:-1]
    given = at_trail(scene.data, table)
    known = keys(known_at(scene.model, scene.data, table))
    return nearest(str(one.trail[-1]), [key for key in known if key not in given])


def _spot(one: Misfit, scene: _Scene) -> Spot:
    """The value; the key where the key is wrong; the table's header where a key is missing."""
    trail, place = scene.where.nearest(one.trail)
    if place is None:
        return Spot(scene.file, 1, 1)
    at_key = one.of_key or one.kind == "extra_forbidden" or trail != one.trail
    return _place_spot(scene, place, at_key=at_key)


def _span_spot(scene: _Scene, trail: Trail) -> Spot:
    place = scene.where.nearest(trail)[1]
    return _place_spot(scene, place, at_key=False) if place else Spot(scene.file, 1, 1)


def _place_spot(scene: _Scene, place: Place, *, at_key: bool) -> Spot:
    if at_key and place.key_end > place.key:
        return scene.where.spot(scene.file, place.key, place.key_end)
    return scene.where.spot(scene.file, place.start, place.end)


def _problem(one: Misfit, spot: Spot, scene: _Scene) -> Problem:
    known = known_at(scene.model, scene.data, one.trail)
    found = _found(one, scene)
    says, belongs, shown = said_of(one, found), allowed(known), _example(one.trail, known)
    close: str | None = None
    if one.kind == "extra_forbidden":
        table = known_at(scene.model, scene.data, one.trail[:-1])
        close = _nearest_key(one, scene)
        belongs = "" if close else _told_keys(table)
        known = known_at(scene.model, scene.data, (*one.trail[:-1], close or one.trail[-1]))
        shown = _example((*one.trail[:-1], close), known) if close else ""
    elif one.of_key:
        belongs, shown = allowed(key_names(known_at(scene.model, scene.data, one.trail[:-1]))), ""
    elif one.kind == "missing":
        says += _in_table(one.trail[:-1], scene)
    elif one.kind in ("literal_error", "enum", NO_SHAPE) and isinstance(one.value, str):
        close = nearest(one.value, [word for word in words(known) if isinstance(word, str)])
        shown = _rows(one.trail, close) if close else shown
    if len(known.forms) == 1 and belongs in _TOLD_ANYWAY:
        belongs = ""
    return Problem(
        spot=spot,
        says=f'{says}: did you mean "{close}"?' if close else says,
        found=found,
        allowed=belongs,
        nearest=close,
        example=shown,
        excerpt=excerpt(scene.where, spot),
    )


def _found(one: Misfit, scene: _Scene) -> str:
    """What stands in the document, short enough for a sentence."""
    place = scene.where.of.get(one.trail)
    if one.of_key or one.kind in ("missing", "extra_forbidden"):
        return brief(value_text(str(one.trail[-1]))) if one.trail else ""
    if place is not None and place.kind in _VALUE_KINDS:
        return brief(scene.where.text[place.start : place.end])
    return "a list" if isinstance(one.value, list) else "a table"


def _told_keys(table: Known) -> str:
    """The keys of a table as a sentence lists them."""
    known = keys(table)
    return f"one of the keys {', '.join(known)}" if known else ""


def _in_table(trail: Trail, scene: _Scene) -> str:
    """In which table something is missing: ` in place of unit delay`; nothing at the root."""
    steps = address_of(scene.data, trail).steps
    names = [step.key if step.entry is None else f"{step.key} {step.entry}" for step in steps]
    return f" in {' of '.join(reversed(names))}" if names else ""


def _example(trail: Trail, known: Known) -> str:
    """Rows that would be right at a place, with the model's own example."""
    shown = example(known)
    return _rows(trail, shown) if trail and shown is not None else ""


def _rows(trail: Trail, shown: Value) -> str:
    """The key at the end of a trail with a value, as it would be typed there."""
    key = trail[-1]
    if not isinstance(key, str):
        return value_text(shown)
    if len(trail) == 1 and isinstance(shown, Mapping):
        return table_text((key,), shown).rstrip("\n")
    if len(trail) == 1 and is_list_of_tables(shown):
        return table_text((key,), shown[0], entry=True).rstrip("\n")
    return pair_text((key,), shown)
