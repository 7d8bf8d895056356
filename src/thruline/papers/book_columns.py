"""Columns of printed tables: how wide each is, and where a word too long for its cell may break.

Nothing is ever cut off or set over its neighbour. All measures are points.
"""

import math
from collections.abc import Sequence

from thruline.papers.text_width import text_width

INSET = 4.0
"""Empty on each side of a cell."""
BREAK = "\u200b"
"""A blank of no width: here a row may end."""
WORD_MOST = 110.0
"""A column keeps room for its longest word, up to this."""
TICK = 18.0
"""A column of boxes to tick."""
LEAST = 16.0


def column_points(
    rows: Sequence[Sequence[str]], width: float, *, size: float, ticks: str
) -> list[float]:
    """How wide each column is, together at most `width`.

    As wide as the cells want where there is room; or else none is narrower than its longest word
    while that is possible, and what is left goes to those with the most to say in all their rows:
    one long cell among short ones does not make its column wide.
    """
    columns = list(zip(*rows, strict=True))
    wanted = [_wanted(column, size, ticks) for column in columns]
    if sum(wanted) <= width:
        return wanted
    least = [min(want, _word(column, size)) for want, column in zip(wanted, columns, strict=True)]
    if sum(least) >= width:
        return _evened(least, width)
    says = [
        math.sqrt(sum(max(0.0, _row(cell, size) + 2 * INSET - one) for cell in column))
        for one, column in zip(least, columns, strict=True)
    ]
    return _shared(least, wanted, says=says, room=width - sum(least))


def _shared(
    least: Sequence[float], wanted: Sequence[float], *, says: Sequence[float], room: float
) -> list[float]:
    """Room shared out by how much each has to say; none gets more than it wants."""
    widths = list(least)
    growing = [place for place, say in enumerate(says) if say > 0]
    while growing:
        share = room / sum(says[place] for place in growing)
        full = [one for one in growing if wanted[one] - widths[one] <= share * says[one]]
        for place in full or growing:
            more = min(share * says[place], wanted[place] - widths[place])
            widths[place] += more
            room -= more
        growing = [one for one in growing if one not in full] if full else []
    return widths


def _evened(least: Sequence[float], width: float) -> list[float]:
    """Columns whose longest words do not fit together: the widest are cut down until they do."""
    most, narrow = width, list(least)
    while sum(narrow) > width and most > LEAST:
        most -= 1
        narrow = [min(one, most) for one in least]
    over = sum(narrow)
    return [one * width / over for one in narrow] if over > width else narrow


def _wanted(column: Sequence[str], size: float, ticks: str) -> float:
    if any(cell == ticks for cell in column):
        return TICK
    return max(_row(cell, size) for cell in column) + 2 * INSET


def _row(cell: str, size: float) -> float:
    return text_width(cell, size, bold=True)


def _word(column: Sequence[str], size: float) -> float:
    widest = max((_row(word, size) for cell in column for word in cell.split()), default=0.0)
    return max(LEAST, min(widest, WORD_MOST) + 2 * INSET)


def height_of(rows: Sequence[Sequence[str]], widths: Sequence[float], *, size: float) -> float:
    """About how high a table becomes, rather too much than too little."""
    pitch, total = size * 1.4, 0.0
    for row in rows:
        lines = (
            _lines(_row(cell, size), max(1.0, width - 2 * INSET))
            for cell, width in zip(row, widths, strict=True)
        )
        total += max(1, *lines) * pitch + 6
    return total


def _lines(row: float, room: float) -> int:
    """Lines of a cell: what fits is in one, and words that break leave some room unused."""
    return 1 if row <= room + 0.01 else math.ceil(row * 1.15 / room)


def breakable(text: str, width: float, *, size: float) -> str:
    """The text, its too long words with places to break at."""
    room = width - 1
    if text_width(text, size, bold=True) <= room:
        return text
    return " ".join(
        BREAK.join(word) if text_width(word, size, bold=True) > room else word
        for word in text.split(" ")
    )
