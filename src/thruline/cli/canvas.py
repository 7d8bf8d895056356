"""A field of letters to draw on, each with a rank: what matters more is not drawn over."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby
from types import MappingProxyType
from typing import NamedTuple

Style = Callable[[str, str], str]
"""Takes a text and the name of a style, returns the text in it."""

PLAIN: Mapping[str, str] = MappingProxyType(
    {
        "│": "|", "╲": "\\", "─": "-", "╰": "`", "╮": ".", "├": "|", "╎": ":", "┊": ":",
        "●": "o", "✕": "x", "○": "O", "◉": "@", "◌": "o", "□": "[", "■": "#",
        "▒": "#", "░": "=", "╌": "-", "┃": "!", "·": ".", "║": "|", "…": "~", "—": "-", "×": "x",
    }
)  # fmt: skip
"""What stands for a letter where only ASCII can be shown."""


class Cell(NamedTuple):
    """One letter, the name of its style, and its rank."""

    letter: str = " "
    style: str = ""
    rank: int = 0


@dataclass(slots=True)
class Canvas:
    """So many rows of so many columns; what falls outside is not drawn."""

    height: int
    width: int
    cells: dict[tuple[int, int], Cell] = field(default_factory=dict)

    def put(self, row: int, column: int, text: str, *, style: str = "", rank: int = 1) -> None:
        """Write letters from a place on, where nothing of a higher rank stands."""
        for place, letter in enumerate(text, column):
            inside = 0 <= row < self.height and 0 <= place < self.width
            if inside and self.at(row, place).rank <= rank:
                self.cells[row, place] = Cell(letter, style, rank)

    def at(self, row: int, column: int) -> Cell:
        """What stands at a place."""
        return self.cells.get((row, column), Cell())

    def is_free(self, row: int, first: int, *, count: int, rank: int) -> bool:
        """Whether so many places lie inside and hold nothing of this rank or more."""
        return first >= 0 and all(
            place < self.width and self.at(row, place).rank < rank
            for place in range(first, first + count)
        )

    def row(self, number: int, style: Style) -> str:
        """A row as text, letters of one style together."""
        cells = [self.at(number, place) for place in range(self.width)]
        while cells and cells[-1].letter == " ":
            cells.pop()
        parts = []
        for name, group in groupby(cells, key=lambda cell: cell.style):
            text = "".join(cell.letter for cell in group)
            parts.append(style(text, name) if name and text.strip() else text)
        return "".join(parts)

    def rows(self, style: Style) -> Iterator[str]:
        """Every row as text."""
        return (self.row(number, style) for number in range(self.height))


def fitted(text: str, width: int) -> str:
    """The text, cut off with an ellipsis where it is longer."""
    return text if len(text) <= width else text[: max(0, width - 1)].rstrip() + "…"


def in_ascii(rows: Sequence[str]) -> list[str]:
    """Rows with a plain letter for each that is drawn with."""
    table = str.maketrans(dict(PLAIN))
    return [row.translate(table) for row in rows]
