"""What may stand in a document: every key of a rig and of a chart, made from the models."""

import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple, TypeAlias

from pydantic import BaseModel

import thruline.samples
from thruline.document.chart_shape import ChartShape
from thruline.document.known import Known, allowed, example, known_at, words
from thruline.document.rig_shape import RigShape
from thruline.document.schema import json_schema
from thruline.document.write import value_text
from tools.reference.rules import in_cell

Schema: TypeAlias = Mapping[str, Any]

_HEADS = {
    "rig": """\
# Every key of a rig

A rig (`NAME.rig.toml`) describes a board and all that is asked of it. A unit names its chart by id.
The chart may lie in the folder `charts` beside the rig, in your workshop, or among the samples; the
first one found is taken.

A preset has, besides the keys below, one for each unit that it wants something of: a program by
the label on the unit's display (`delay = "11B"`), the state of a relay loop (`drive = "in"`), or a
table of both and of controls (`delay = { program = "11B", mix = "50%" }`). A value may be written
as the number on the wire (`64`), in percent (`"50%"`), as the display shows it (`"350 ms"`), or by
name (`"dotted eighth"`, `"on"`). Percent are rounded to the nearest step, a half upwards: `"50%"`
of 127 is 64. They are percent of the way from the least value to the most; only where the display
itself counts in percent, as on a control that goes to 110 %, they are those of the display.
""",
    "chart": """\
# Every key of a chart

A chart (`ID.chart.toml`) holds what is known of one model of unit. What the manual does not say is
left out: it is then reported as something that cannot be told, and never taken for a no.
""",
}
_TAIL = """\
Unknown keys are refused, with the nearest known one. Editors that know JSON Schema complete and
check these documents: the schema is `schemas/{name}.schema.json` in the folder that
`python -c "import thruline; print(thruline.__path__[0])"` prints.
"""
KINDS: Mapping[str, type[BaseModel]] = {"rig": RigShape, "chart": ChartShape}
_SAMPLES = {
    "rig": ("orchard-street/orchard-street.rig.toml", "first-board/first-board.rig.toml"),
    "chart": ("charts/bramley-delay.chart.toml", "charts/braeburn-six.chart.toml", "charts"),
}
"""Where examples are taken from, the best ones first; a folder is every document in it."""
_LONGEST_EXAMPLE = 70


class Place(NamedTuple):
    """A table of a document: how its header is written, where it is, and what it may hold."""

    header: str
    way: tuple[str | int, ...]
    schema: Schema


def pages() -> Iterator[tuple[str, str]]:
    """A page for each kind of document."""
    for name, model in KINDS.items():
        parts = [_HEADS[name], _TAIL.format(name=name)]
        parts += [section(place, name) for place in tables(model)]
        yield f"{name}-keys.md", "\n".join(parts)


def tables(model: type[BaseModel]) -> list[Place]:
    """Every table of a document, each before those inside it."""
    root = json_schema(model)
    return list(_below(Place("", (), root), root["$defs"]))


def _below(place: Place, definitions: Schema) -> Iterator[Place]:
    yield place
    for key, schema in place.schema["properties"].items():
        for found, in_list in _inner(schema, definitions):
            name = f"{place.header.strip('[]')}.{key}".strip(".")
            header = f"[[{name}]]" if in_list else f"[{name}]"
            way = (*place.way, key, 0) if in_list else (*place.way, key)
            yield from _below(Place(header, way, found), definitions)


def _inner(schema: Schema, definitions: Schema) -> Iterator[tuple[Schema, bool]]:
    """The tables that a key may hold, and whether it holds a list of them."""
    for one in schema.get("anyOf", [schema]):
        items = one.get("items", {}) if one.get("type") == "array" else one
        for form in items.get("anyOf", [items]) if isinstance(items, dict) else ():
            if "$ref" in form:
                found = definitions[form["$ref"].rsplit("/", 1)[-1]]
                if "properties" in found:
                    yield found, one.get("type") == "array"


def section(place: Place, name: str) -> str:
    """One table: what it is, and its keys."""
    title = f"## `{place.header}`" if place.header else "## At the top"
    rows = [row(place, key, name) for key in place.schema["properties"]]
    head = ["| key | holds | when left out | example |", "|---|---|---|---|"]
    return "\n".join([title, "", place.schema.get("description", ""), "", *head, *rows, ""])


def row(place: Place, key: str, name: str) -> str:
    """One key: what may stand there, what holds when it is left out, an example."""
    known = known_at(KINDS[name], {}, (*place.way, key))
    schema = place.schema["properties"][key]
    inner = any("properties" in form for form in known.forms)
    listed = known_at(KINDS[name], {}, (*place.way, key, 0))
    inner = inner or any("properties" in form for form in listed.forms)
    cells = (
        f"`{key}`",
        "see below" if inner else holds(known, schema, listed),
        absent(schema, is_needed=key in place.schema.get("required", ()), name=name),
        "" if inner else shown(place, key, name=name, known=known),
    )
    return f"| {' | '.join(map(in_cell, cells))} |"


def holds(known: Known, schema: Schema, listed: Known) -> str:
    """What may stand there: its meaning, then its form; `listed` is about the entries of a list."""
    form = allowed(replace(known, description=""))
    form = re.sub(r' like "[^"]*"| (?:\[ \]|\{ \})', "", form)
    if words(listed):
        form = form.replace("a list", f"a list of {allowed(listed)}")
    meaning = (schema.get("description") or known.description).rstrip(".")
    return f"{meaning}: {form}" if meaning and form else meaning or form


def absent(schema: Schema, *, is_needed: bool, name: str) -> str:
    """What holds when the key is left out."""
    if is_needed:
        return "must be there"
    default = schema.get("default")
    if default is None and name == "chart":
        return "not told"
    if default in (None, "", [], {}) or isinstance(default, dict):
        return "nothing"
    return f"`{value_text(default)}`"


def shown(place: Place, key: str, *, name: str, known: Known) -> str:
    """An example as it is written: from a sample if one has it, else from the model."""
    keys = [part for part in (*place.way, key) if isinstance(part, str)]
    found = next((one for data in samples(name) for one in _values(data, keys)), None)
    found = example(known) if found is None else found
    return "" if found is None or found == {} else f"`{value_text(found)}`"


@cache
def samples(name: str) -> Sequence[Mapping[str, Any]]:
    """The sample documents of a kind, those with the best examples first."""
    root = Path(thruline.samples.__path__[0])
    files = [file for place in _SAMPLES[name] for file in _files(root / place)]
    return [tomllib.loads(file.read_text(encoding="utf-8")) for file in files]


def _files(place: Path) -> list[Path]:
    return sorted(place.glob("*.toml")) if place.is_dir() else [place]


def _values(data: object, keys: Sequence[str]) -> Iterator[object]:
    """Every value under these keys that is short enough to be an example."""
    if not keys:
        if len(value_text(data)) <= _LONGEST_EXAMPLE:
            yield data
    elif isinstance(data, list):
        for entry in data:
            yield from _values(entry, keys)
    elif isinstance(data, Mapping) and keys[0] in data:
        yield from _values(data[keys[0]], keys[1:])
