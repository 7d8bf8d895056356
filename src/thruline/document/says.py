"""What is said of each kind of misfit: pydantic's kinds of error in a musician's words.

`{found}` is what stands in the document, `{what}` whether it is text or a key, `{characters}` and
`{entries}` how many it has; the other names are what pydantic gives with the error.
"""

import re
from collections.abc import Mapping, Sized
from typing import get_args

from pydantic_core.core_schema import ErrorType

from thruline.document.unions import NO_SHAPE, Misfit

SAYS: Mapping[str, str] = {
    NO_SHAPE: "{found} does not fit here",
    "missing": '"{key}" is missing',
    "extra_forbidden": '"{key}" is not known here',
    "invalid_key": '"{key}" cannot be a key here',
    # numbers
    "less_than_equal": "{found} is too high: the most is {le}",
    "less_than": "{found} is too high: it must be below {lt}",
    "greater_than_equal": "{found} is too low: the least is {ge}",
    "greater_than": "{found} is too low: it must be above {gt}",
    "multiple_of": "{found} is not a multiple of {multiple_of}",
    "finite_number": "{found} is not a number that can be used here",
    "int_type": "{found} is not a whole number",
    "int_from_float": "{found} is not a whole number",
    "float_type": "{found} is not a number",
    "decimal_type": "{found} is not a number",
    "bool_type": "{found} must be true or false",
    # text
    "string_type": "{found} must be text, in quotation marks",
    "string_too_long": "this {what} has {characters}: the most is {max_length}",
    "string_too_short": "this {what} has {characters}: the least is {min_length}",
    "string_pattern_mismatch": "{found} is not written as it must be here",
    "string_not_ascii": "{found} has other characters than plain letters, digits and signs",
    "string_unicode": "{found} has half a character in it; type it again",
    "literal_error": "{found} is not known here",
    "enum": "{found} is not known here",
    # lists and tables
    "list_type": "{found} must be a list, in [ ]",
    "tuple_type": "{found} must be a list, in [ ]",
    "set_type": "{found} must be a list, in [ ]",
    "frozen_set_type": "{found} must be a list, in [ ]",
    "iterable_type": "{found} must be a list, in [ ]",
    "too_long": "this has {entries}: the most is {max_length}",
    "too_short": "this has {entries}: the least is {min_length}",
    "set_item_not_hashable": "{found} cannot stand in this list",
    "dict_type": "{found} must be a table, {{ key = value }}",
    "mapping_type": "{found} must be a table, {{ key = value }}",
    "model_type": "{found} must be a table, {{ key = value }}",
    "model_attributes_type": "{found} must be a table, {{ key = value }}",
    "dataclass_type": "{found} must be a table, {{ key = value }}",
    "dataclass_exact_type": "{found} must be a table, {{ key = value }}",
    # dates
    "date_type": "{found} must be a date, as in 2026-05-01",
    "time_type": "{found} must be a time of day, as in 19:30:00",
    "datetime_type": "{found} must be a date and time, as in 2026-05-01T19:30:00",
}

_IN_MM: Mapping[str, float] = {"mm": 1, "cm": 10, "m": 1000}
_LENGTH = re.compile(r"\s*(\d+(?:[.,]\d+)?)\s*(mm|cm|m)\s*")

_EMPTY: Mapping[str, str] = {
    "string_too_short": "this {what} is empty",
    "too_short": "this is empty: at least {min_length} must stand here",
}
_OF_PYDANTIC = frozenset(get_args(ErrorType)) - {"value_error", "assertion_error"}


def _is_quoted_number(misfit: Misfit, value: str) -> bool:
    """Whether only the quotation marks are wrong; pydantic quotes the texts that it expects."""
    if misfit.kind == "literal_error":
        return str(misfit.context.get("expected")) == value.strip()
    return misfit.kind == "int_type" and value.strip().isdecimal()


def said_of(misfit: Misfit, found: str) -> str:
    """One sentence about a misfit; `found` is what stands in the document."""
    value = misfit.value
    if isinstance(value, str) and _is_quoted_number(misfit, value):
        return f"{found} must be a number: take the quotation marks away"
    if misfit.kind == "int_type" and isinstance(value, str) and (long := _LENGTH.fullmatch(value)):
        mm = float(long[1].replace(",", ".")) * _IN_MM[long[2]]
        return f"{found} must be a whole number of mm, without a measure: {mm:.0f}"
    if misfit.kind == "list_type" and isinstance(value, Mapping) and len(misfit.trail) == 1:
        return f"there can be several: write [[{misfit.trail[0]}]] above it, in two brackets"
    length = len(value) if isinstance(value, Sized) else 0
    sentence = _EMPTY.get(misfit.kind) if length == 0 else None
    sentence = sentence or SAYS.get(misfit.kind)
    if sentence is None and misfit.kind in _OF_PYDANTIC:
        sentence = SAYS[NO_SHAPE]
    if sentence is None:
        return misfit.says
    told = {
        "found": found,
        "key": misfit.trail[-1] if misfit.trail else "",
        "what": "key" if misfit.of_key else "text",
        "characters": "1 character" if length == 1 else f"{length} characters",
        "entries": "1 entry" if length == 1 else f"{length} entries",
    }
    return sentence.format_map({**misfit.context, **told})
