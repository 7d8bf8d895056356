"""Characters that nobody sees and that steer whatever shows them: none belongs into a document.

A terminal obeys control characters, and a page turns the rest of a row round for some others, so
that a name could hide what stands beside it, or show what is not there.
"""

import re
import unicodedata
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from thruline.document.naming import Trail

UNSEEN = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069]")
"""Control characters but for tab and line feed, and what parts rows or turns their direction.

From the Unicode Standard: the general category Cc; LINE and PARAGRAPH SEPARATOR; the explicit
directional formatting characters of Annex 9, "Unicode Bidirectional Algorithm", 2.1 to 2.5.
"""
SEVERAL_ROWS = ("about", "reason")
"""Keys whose texts are told, and may have several rows; all others are names, read in one."""

_MAY_HIDE = ("\\", '"""', "'''")
"""How a text of TOML may hold a character that does not stand in it as such, or a second row."""


class Unseen(NamedTuple):
    """A text, or with `of_key` a key, that holds what it may not, and a sentence about it."""

    trail: Trail
    of_key: bool
    says: str


def unseen_in(text: str, *, rows: bool = False) -> str:
    """What is wrong with a text, as a sentence goes on; empty when all of it can be seen.

    With `rows` it may have several.
    """
    found = UNSEEN.search(text)
    if found:
        return (
            f"holds the character U+{ord(found[0]):04X}{_called(found[0])}, which cannot be seen "
            "and steers what shows it; type it again without that"
        )
    if "\n" in text and not rows:
        return "goes over several rows; write it in one"
    return ""


def _called(character: str) -> str:
    """The name of a character in brackets; control characters have none."""
    name = unicodedata.name(character, "").lower()
    return f" ({name})" if name else ""


def hides_some(text: str, data: Mapping[str, Any]) -> bool:
    """Whether a text of TOML, which holds this data, has anything in it that nobody sees.

    The data are looked through only where the text has any sign of it.
    """
    may_hide = any(sign in text for sign in _MAY_HIDE) or UNSEEN.search(text) is not None
    return may_hide and any(unseen(data))


def unseen(data: Mapping[str, Any]) -> Iterator[Unseen]:
    """Every text of a document that holds what it may not."""
    yield from _inside(data, (), "")


def _inside(value: Any, trail: Trail, key: str) -> Iterator[Unseen]:  # noqa: ANN401 - TOML's values
    if isinstance(value, str):
        if says := unseen_in(value, rows=key in SEVERAL_ROWS):
            yield Unseen(trail, of_key=False, says=f"this text {says}")
    elif isinstance(value, Mapping):
        for name, inner in value.items():
            if says := unseen_in(name):
                yield Unseen((*trail, name), of_key=True, says=f"this key {says}")
            yield from _inside(inner, (*trail, name), name)
    elif isinstance(value, list):
        for place, inner in enumerate(value):
            yield from _inside(inner, (*trail, place), key)
