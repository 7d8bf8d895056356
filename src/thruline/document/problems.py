"""What is wrong with a text, as people read it: the row, the spot in it, and what belongs there.

pit.rig.toml:31:11: 20 is too high: the most is 16
    31 | channel = 20
       |           ^^
       = here belongs: a MIDI channel as people count it, 1 to 16
       = for example: channel = 3
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from thruline.base.errors import CannotUse
from thruline.base.spot import Spot
from thruline.document.places import BOM, Places
from thruline.document.unseen import UNSEEN

MOST_SHOWN = 50
"""How many problems of one text are told apart; the rest are counted."""

_WIDEST_ROW = 100
_BEFORE = 60  # characters of a longer row that stay in front of the spot
_BRIEF = 40
_UNSHOWABLE = re.compile(rf"{UNSEEN.pattern}|[\n\ud800-\udfff]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Excerpt:
    """A row of text, cut to a readable width, and which part of it is meant (from 0)."""

    row: str
    start: int
    length: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing that is wrong. `says` is one sentence; the rest may be empty."""

    spot: Spot
    says: str
    found: str = ""
    """What stands there, as it is written."""
    allowed: str = ""
    """What belongs there."""
    nearest: str | None = None
    """The known key or word that was probably meant."""
    example: str = ""
    """A row that would be right."""
    excerpt: Excerpt | None = None

    def __str__(self) -> str:
        return f"{self.spot}: {self.says}"


class BadDocument(CannotUse):
    """A document that cannot be used, with all its problems in the order of the text.

    `more` counts the problems beyond those in `problems`.
    """

    def __init__(self, problems: Sequence[Problem], *, more: int = 0) -> None:
        super().__init__(shown_problems(problems, more=more))
        self.problems = tuple(problems)
        self.more = more


def shown_problems(problems: Sequence[Problem], *, more: int = 0) -> str:
    """Problems as a person reads them, with the row of each and a mark under the spot."""
    parts = [shown_problem(problem) for problem in problems]
    if more:
        parts.append(f"and {more} more")
    return "\n".join(parts)


def shown_problem(problem: Problem) -> str:
    """One problem as a person reads it."""
    rows = [shown_text(str(problem))]
    if problem.excerpt is not None and problem.excerpt.row:
        rows += _picture(problem.spot.row, problem.excerpt)
    if problem.allowed:
        rows.append(f"{_MARGIN} = here belongs: {shown_text(problem.allowed)}")
    for at, row in enumerate(problem.example.splitlines()):
        head = "= for example: " if at == 0 else " " * len("= for example: ")
        rows.append(f"{_MARGIN} {head}{shown_text(row)}")
    return "\n".join(rows)


def excerpt(where: Places, spot: Spot) -> Excerpt:
    """The row of a spot, cut to a readable width around it."""
    begins = where.row_starts[spot.row - 1]
    ends = where.text.find("\n", begins)
    row = where.text[begins : len(where.text) if ends < 0 else ends].rstrip("\r")
    if spot.row == 1:
        row = row.removeprefix(BOM)
    return cut(row, spot.column - 1, spot.length)


def cut(row: str, start: int, length: int) -> Excerpt:
    """A row cut to a readable width around the part of it that is meant."""
    first = max(0, start - _BEFORE) if len(row) > _WIDEST_ROW else 0
    head = "…" if first else ""
    tail = "…" if len(row) > first + _WIDEST_ROW else ""
    shown = f"{head}{row[first : first + _WIDEST_ROW]}{tail}"
    start = start - first + len(head)
    return Excerpt(row=shown, start=start, length=max(1, min(length, len(shown) - start)))


def brief(text: str) -> str:
    """Text short enough to stand in a sentence: in one row, and the end of a long one left out."""
    one_row = " ".join(text.split()) if "\n" in text else text
    return one_row if len(one_row) <= _BRIEF else f"{one_row[: _BRIEF - 1]}…"


def shown_text(text: str) -> str:
    """Text that a terminal shows as it is: whatever would steer it becomes a question mark."""
    return _UNSHOWABLE.sub("\ufffd", text)


_MARGIN = " " * 6


def _picture(row: int, part: Excerpt) -> list[str]:
    """The row and a mark under what is meant; tabs stay, so that the mark stands right."""
    under = re.sub(r"[^\t]", " ", part.row[: part.start]) + "^" * part.length
    return [f"{row:6} | {shown_text(part.row)}".rstrip(), f"{_MARGIN} | {under}"]
