"""What belongs in a field of a document, for a person who types it on a page, with an example."""

from collections.abc import Mapping, Sequence
from typing import Any

from thruline.document.known import Known, Schema, example, going_on, range_words

_PLURALS: Mapping[str, str] = {"integer": "whole numbers", "number": "numbers"}


def belongs(known: Known) -> str:
    """What may stand in a place, such as `a whole number from 1 to 16`; all kinds it may have."""
    told = list(dict.fromkeys(map(_told, known.forms)))
    if "a number" in told and "a whole number" in told:
        told.remove("a whole number")
    return " or ".join(told)


def example_in(known: Known, usual: object) -> Any:  # noqa: ANN401 - anything that TOML can hold
    """A value that would be right: the model's own example, the usual value, or one made up."""
    is_telling = usual is not None and usual not in ("", [])
    return usual if is_telling and not known.examples else example(known)


def _told(form: Schema) -> str:
    """One kind of value in words."""
    fixed = [form["const"]] if "const" in form else form.get("enum")
    if fixed:
        return _one_of(fixed)
    match form.get("type"):
        case "integer":
            return f"a whole number{range_words(form)}"
        case "number":
            return f"a number{range_words(form)}"
        case "boolean":
            return "yes or no"
        case "string":
            return _told_text(form)
        case "array":
            return f"{_how_many(form)}{_told_list(form.get('items', {}))}"
        case _:
            return "pairs such as a = b, with commas between"


def _told_text(form: Schema) -> str:
    least, most = form.get("minLength", 0), form.get("maxLength")
    if "pattern" in form and form.get("description"):
        limit = "" if most is None else f", at most {most} of them"
        return f"{going_on(str(form['description']))}{limit}"
    if most is None:
        return "text"
    return f"text of {least} to {most} letters" if least else f"text of at most {most} letters"


def _how_many(form: Schema) -> str:
    """How many a list must have, where there is a most: `2 `, `1 to 3 `."""
    least, most = form.get("minItems", 0), form.get("maxItems")
    if most is None:
        return ""
    return f"{most} " if least == most else f"{least} to {most} "


def _told_list(items: Schema) -> str:
    """Several of one kind, as they are typed in a row."""
    fixed = [items["const"]] if "const" in items else items.get("enum")
    kind = str(items.get("type"))
    if fixed:
        return f"some of {', '.join(map(str, fixed))}, with commas between"
    if kind in _PLURALS:
        return f"{_PLURALS[kind]}{range_words(items)}, with commas between"
    if kind == "string":
        return "words with commas between"
    return "a list, in [ ]"


def _one_of(words: Sequence[Any]) -> str:
    return f"one of {', '.join(map(str, words))}" if len(words) > 1 else str(words[0])
