"""SVG as text: elements whose names, attributes and texts are always well formed."""

from collections.abc import Iterable
from html import escape

_ALLOWED = frozenset("\t\n\r")


def element(name: str, *inside: str, **attributes: str | float | None) -> str:
    """An element; `inside` is markup already. `fill_opacity=1` is written `fill-opacity="1"`.

    A trailing underscore (`class_`) is left out, and so is an attribute that is None.
    """
    said = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{escape(_number(value))}"'
        for key, value in attributes.items()
        if value is not None
    )
    return f"<{name}{said}>{''.join(inside)}</{name}>" if inside else f"<{name}{said}/>"


def text_of(text: str) -> str:
    """Plain text as markup. Control characters, which XML cannot hold, become blanks."""
    clean = "".join(
        letter if letter.isprintable() or letter in _ALLOWED else " " for letter in text
    )
    return escape(clean, quote=False)


def points(pairs: Iterable[tuple[float, float]]) -> str:
    """Points of a polyline."""
    return " ".join(f"{_number(x)},{_number(y)}" for x, y in pairs)


def _number(value: str | float) -> str:
    """A number with at most two decimals; a text as it is."""
    return value if isinstance(value, str) else f"{round(value, 2):g}"
