"""What every paper is made of: sections, each with sentences, a table and small print."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Self


@dataclass(frozen=True, slots=True)
class Table:
    """A head, and rows of as many cells."""

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """One part of a paper: what is said first, what is listed, and the small print below it.

    `about` names what it is about (`unit:delay`, `preset:4`), so that other papers can refer to it;
    empty where nothing does.
    """

    title: str
    says: tuple[str, ...] = ()
    table: Table | None = None
    notes: tuple[str, ...] = ()
    about: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A whole paper. `about` are sentences below its title."""

    title: str
    about: tuple[str, ...] = ()
    sections: tuple[Section, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A timing chart: a heading, the drawing as SVG markup, and the same in tables."""

    title: str
    says: str
    svg: str
    sections: tuple[Section, ...]


def table_of(head: Iterable[str], rows: Iterable[Iterable[str]]) -> Table | None:
    """A table; None when there are no rows, so that nothing empty is printed."""
    made = tuple(tuple(row) for row in rows)
    return Table(tuple(head), made) if made else None


class See(str):
    """A cell that refers to the section about something.

    It reads as its own words; a printed paper says the page.
    """

    __slots__ = ("about",)
    about: str

    def __new__(cls, words: str, about: str) -> Self:
        """Words, and what the section is about: `preset:4`."""
        made = super().__new__(cls, words)
        made.about = about
        return made
