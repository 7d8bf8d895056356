"""What a model says about a place in a document: the keys, words, numbers and examples it allows.

Read from the model's JSON Schema, so that it holds for any pydantic model.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, TypeAlias

from pydantic import BaseModel

from thruline.document.naming import Trail
from thruline.document.write import value_text

Schema: TypeAlias = Mapping[str, Any]

_DEEPEST_EXAMPLE = 4
_MOST_WORDS = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What may stand in one place: any of `forms`, each a JSON Schema without references."""

    description: str
    examples: Sequence[Any]
    forms: Sequence[Schema]
    definitions: Schema


def known_at(model: type[BaseModel], data: object, trail: Trail) -> Known:
    """What the model knows about a place; without forms where it knows nothing.

    Where a table may have one of several shapes, those are left out that the data there rules out.
    """
    root = _json_schema(model)
    known = _known(root, root.get("$defs", {}))
    here: Any = data
    for part in trail:
        found = [
            below for form in _fitting(known.forms, here) for below in _below(known, form, part)
        ]
        known = _joined(found, known.definitions)
        here = _value_below(here, part)
    return known


def keys(known: Known) -> list[str]:
    """The keys that a table in this place may have."""
    return list(dict.fromkeys(key for form in known.forms for key in form.get("properties", ())))


def key_names(known: Known) -> Known:
    """What the keys of a table in this place may be called, where they can be chosen."""
    rules = [form["propertyNames"] for form in known.forms if "propertyNames" in form]
    return _joined([_known(rule, known.definitions) for rule in rules], known.definitions)


def words(known: Known) -> list[Any]:
    """The words (or other fixed values) that may stand here; none when it is not a closed list."""
    found: list[Any] = []
    for form in known.forms:
        found += [form["const"]] if "const" in form else form.get("enum", ())
    return found


def allowed(known: Known) -> str:
    """What may stand here, as the tail of a sentence; empty when nothing is known."""
    if known.description and not words(known):
        return going_on(known.description)
    parts = list(dict.fromkeys(filter(None, map(_told, known.forms))))
    if "a number" in parts and "a whole number" in parts:
        parts.remove("a whole number")
    return ", or ".join(parts)


def going_on(sentence: str) -> str:
    """A sentence to go on with after a colon; a first word in capitals (MIDI) stays."""
    first = sentence[:1] if sentence[1:2].isupper() else sentence[:1].lower()
    return (first + sentence[1:]).rstrip(".")


def one_of(values: Iterable[Any]) -> str:
    """Values as a sentence lists them: `"on", "off" or 3`."""
    told = [value_text(value) for value in values]
    if len(told) > _MOST_WORDS:
        return f"{', '.join(told[:_MOST_WORDS])} …"
    return " or ".join(filter(None, [", ".join(told[:-1]), told[-1]])) if told else ""


def example(known: Known, depth: int = _DEEPEST_EXAMPLE) -> Any:  # noqa: ANN401 - anything
    """A value that would be right here: the model's example, or one made up; None if neither."""
    if known.examples:
        return known.examples[0]
    for form in known.forms:
        if len(known.forms) == 1 or "const" in form or "enum" in form:
            return _made_up(form, known.definitions, depth)
    return None


@lru_cache(maxsize=16)
def _json_schema(model: type[BaseModel]) -> Schema:
    return model.model_json_schema()


def _known(schema: Schema, definitions: Schema) -> Known:
    """A schema with its references and alternatives resolved."""
    description = schema.get("description", "")
    examples = schema.get("examples", ())
    if "$ref" in schema:
        target = definitions[schema["$ref"].rsplit("/", 1)[-1]]
        parts = [_known(target, definitions)]
    elif "anyOf" in schema or "oneOf" in schema:
        parts = [_known(one, definitions) for one in schema.get("anyOf", schema.get("oneOf", ()))]
    else:
        forms = [] if schema.get("type") == "null" else [schema]
        return Known(
            description=description, examples=examples, forms=forms, definitions=definitions
        )
    joined = _joined(parts, definitions)
    return Known(
        description=description or joined.description,
        examples=examples or joined.examples,
        forms=joined.forms,
        definitions=definitions,
    )


def _joined(parts: Sequence[Known], definitions: Schema) -> Known:
    """Alternatives as one; a description only where it holds for all of them."""
    described = [part for part in parts if part.forms]
    alone = len(described) == 1
    return Known(
        description=described[0].description if alone else "",
        examples=next((part.examples for part in parts if part.examples), ()),
        forms=[form for part in parts for form in part.forms],
        definitions=definitions,
    )


def _fitting(forms: Sequence[Schema], here: object) -> Sequence[Schema]:
    """The forms that the fixed words in the data do not rule out; all if none is left."""
    if not isinstance(here, Mapping) or len(forms) < 2:
        return forms
    left = [form for form in forms if not _ruled_out(form, here)]
    return left or forms


def _ruled_out(form: Schema, here: Mapping[str, Any]) -> bool:
    for key, schema in form.get("properties", {}).items():
        fixed = [schema["const"]] if "const" in schema else schema.get("enum")
        if fixed and key in here and here[key] not in fixed:
            return True
    return False


def _below(known: Known, form: Schema, part: str | int) -> list[Known]:
    """What a form says about one key or entry of it; nothing when it does not know it."""
    schema: Any = None
    if isinstance(part, str):
        schema = form.get("properties", {}).get(part, form.get("additionalProperties"))
    else:
        first = form.get("prefixItems", ())
        schema = first[part] if part < len(first) else form.get("items")
    return [_known(schema, known.definitions)] if isinstance(schema, Mapping) else []


def _value_below(here: object, part: str | int) -> object:
    if isinstance(part, str):
        return here.get(part) if isinstance(here, Mapping) else None
    return here[part] if isinstance(here, list) and part < len(here) else None


def _told(form: Schema) -> str:
    """A form in words."""
    fixed = [form["const"]] if "const" in form else form.get("enum")
    if fixed:
        return one_of(fixed)
    match form.get("type"):
        case "integer":
            return f"a whole number{range_words(form)}"
        case "number":
            return f"a number{range_words(form)}"
        case "boolean":
            return "true or false"
        case "string":
            return _told_text(form)
        case "array":
            return "a list [ ]"
        case "object":
            return "a table { }"
        case _:
            return ""


def range_words(form: Schema) -> str:
    """The bounds of a number, as the tail of a sentence."""
    parts = [
        f" {word} {form[key]}"
        for word, key in (
            ("from", "minimum"),
            ("above", "exclusiveMinimum"),
            ("to", "maximum"),
            ("below", "exclusiveMaximum"),
        )
        if key in form
    ]
    return "".join(parts)


def _told_text(form: Schema) -> str:
    like = f" like {value_text(form['examples'][0])}" if form.get("examples") else ""
    most = f" of {form['maxLength']} characters at most" if "maxLength" in form else ""
    return f"text{like or most}"


def _made_up(form: Schema, definitions: Schema, depth: int) -> Any:  # noqa: ANN401 - anything
    """A value of this form; None when none can be told without knowing more."""
    if "const" in form or form.get("enum"):
        return form["const"] if "const" in form else form["enum"][0]
    match form.get("type"):
        case "integer" | "number":
            return max(form["minimum"], 0) if "minimum" in form else None
        case "boolean":
            return True
        case "array" if depth and "items" in form:
            one = example(_known(form["items"], definitions), depth - 1)
            return None if one is None else [one]
        case "object" if depth:
            return _made_up_table(form, definitions, depth)
        case _:
            return None


def _made_up_table(form: Schema, definitions: Schema, depth: int) -> dict[str, Any] | None:
    """The required keys of a table, each with an example."""
    made = {
        key: example(_known(form["properties"][key], definitions), depth - 1)
        for key in form.get("required", ())
    }
    return None if not made or None in made.values() else made
