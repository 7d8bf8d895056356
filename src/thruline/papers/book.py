"""What a printed paper is made of: parts, each with sections, drawings, labels and large sheets.

It names no page size and no file format; `book_data` turns it into what the typesetter reads.
"""

from dataclasses import dataclass
from typing import TypeAlias

from thruline.papers.labels import Labels
from thruline.papers.paper import Paper, Section


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A drawing as SVG markup, `width` and `height` in the same measure.

    `scale` prints it that many points for each of that measure; None as large as it fits. `alt` is
    for those who cannot see it. `wide` turns its page on the side.
    """

    title: str
    svg: str
    width: float
    height: float
    alt: str
    says: str = ""
    scale: float | None = None
    wide: bool = False
    about: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Large:
    """A sheet to be read from a distance: a heading, a word beside it, and rows of two cells."""

    title: str
    beside: str
    rows: tuple[tuple[str, str], ...]
    about: str = ""


Block: TypeAlias = Section | Drawing | Large | Labels


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part of a book; `name` is the one by which it is asked for."""

    name: str
    title: str
    says: tuple[str, ...] = ()
    blocks: tuple[Block, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Enclosed:
    """A file that travels inside the book."""

    name: str
    kind: str
    says: str
    content: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """A whole book. Without `facts` it has no title page and no contents: a single paper.

    `facts` stand on the title page, in pairs. `date` is when it was made, as given.
    """

    title: str
    about: str
    date: str
    version: str
    parts: tuple[Part, ...]
    facts: tuple[tuple[str, str], ...] = ()
    enclosed: tuple[Enclosed, ...] = ()


def part_of(name: str, paper: Paper) -> Part:
    """A paper as a part of a book."""
    return Part(name=name, title=paper.title, says=paper.about, blocks=paper.sections)
