"""How wide a text is when it is set in a plain sans serif face, near enough to lay out by.

A page may be shown in another face than planned: what must never be cut off allows for `WIDEST`.
"""

from collections.abc import Mapping
from types import MappingProxyType
from unicodedata import east_asian_width

_CLASSES: Mapping[str, int] = MappingProxyType(
    {
        "'|ijl": 230,
        " .,:;!I·/\\ft": 290,
        'r-*`°“”()[]"': 360,
        "ckszvxyJ": 510,
        "abdeghnopquL?_0123456789+<>=~#$&": 570,
        "FTZSEPABKXVY": 670,
        "CDHNRUGOQ": 740,
        "w": 730,
        "mM": 850,
        "W—…%@✕": 990,
    }
)
_WIDTHS = {letter: width for letters, width in _CLASSES.items() for letter in letters}
"""Thousandths of the type size, by classes of letters of about the same width in such faces."""
WIDEST = 1.15
"""So much wider is the widest of the faces that a page is usually shown in."""
_OTHER, _FULL = 640, 1030
_BOLD = 1.09
ELLIPSIS = "…"


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """The width of a text of this type size, in the same measure."""
    thousandths = sum(_width(letter) for letter in text)
    return thousandths * size / 1000 * (_BOLD if bold else 1)


def fitted(text: str, width: float, *, size: float, bold: bool = False) -> str:
    """The text, cut off with an ellipsis where it is wider than `width`."""
    if text_width(text, size, bold=bold) <= width:
        return text
    room = width - text_width(ELLIPSIS, size, bold=bold)
    kept = len(text)
    while kept and text_width(text[:kept].rstrip(), size, bold=bold) > room:
        kept -= 1
    return text[:kept].rstrip() + ELLIPSIS


def wrapped(text: str, width: float, *, size: float) -> list[str]:
    """The text in rows of at most `width`, cut between words (a longer word stands alone)."""
    rows: list[str] = []
    for word in text.split():
        if rows and text_width(f"{rows[-1]} {word}", size) <= width:
            rows[-1] += f" {word}"
        else:
            rows.append(word)
    return rows


def _width(letter: str) -> int:
    if letter in _WIDTHS:
        return _WIDTHS[letter]
    return _FULL if east_asian_width(letter) in "WF" else _OTHER
