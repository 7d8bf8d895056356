"""Papers and books on the disk: where typesetting and files meet. Importing it does nothing."""

import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from thruline.base.errors import CannotUse
from thruline.outside.files import (
    check_place,
    read_bytes,
    write_atomically,
    write_new,
    write_raw,
)
from thruline.outside.folders import make_folder
from thruline.outside.shelves import ENDING
from thruline.papers.book import Book
from thruline.workshop.inside import Inside, rig_inside

BOOKS = (".pdf",)
WORDS = (".md", ".txt")
REPORTS = (".html", ".pdf", ".md", ".txt")


def open_book(file: str | Path) -> Inside:
    """The rig document and the charts inside a book.

    Raises CannotUse when it is not there or is no book, WorldFailed when it cannot be read.
    """
    from thruline.outside.pdf import (  # noqa: PLC0415 - only for books
        BEGINS,
        MOST_BYTES,
        enclosed_in,
    )

    content = read_bytes(Path(file), limit=MOST_BYTES)
    if not content.startswith(BEGINS):
        raise CannotUse(f"{file} is called a PDF and is none")
    return rig_inside(str(file), enclosed_in(content, str(file)))


def put_down(inside: Inside, *, folder: str | Path) -> tuple[str, ...]:
    """Write the rig of a book into a folder; the files that were written.

    Charts that are there already with the same bytes stay. Raises CannotUse, before anything is
    written, when another file is in the way; WorldFailed when one cannot be written.
    """
    place = Path(folder)
    name = Path(inside.name).name
    wanted = {place / name: inside.document}
    for chart_id, content in inside.shelf.charts.items():
        wanted[place / "charts" / f"{chart_id}{ENDING}"] = content
    new = {}
    for file, content in wanted.items():
        if os.path.lexists(file) and (file == place / name or read_bytes(file) != content):
            raise CannotUse(f"{file} is there already; name another folder with --to")
        if not os.path.lexists(file):
            new[file] = content
    make_folder(place)
    make_folder(place / "charts")
    for file, content in new.items():
        write_new(file, content.decode())
    return tuple(map(str, new))


def book_beside(file: str | Path) -> str:
    """What the book of a rig is called: after the document, beside it."""
    place = Path(file)
    stem = place.name.removesuffix(".toml").removesuffix(".rig").removesuffix(".pdf")
    return str(place.with_name(f"{stem}.book.pdf"))


def write_book(file: str | Path, book: Book, *, paper: str) -> int:
    """Typeset a book or a single paper and write it, in place of an earlier one; how many pages.

    Raises CannotUse when the name is not that of a PDF, WorldFailed when it cannot be typeset or
    written; what was there is then as it was.
    """
    from thruline.outside.pdf import page_count  # noqa: PLC0415 - only for papers

    check_book(file)
    made = typeset(book, paper=paper)
    write_raw(Path(file), made)
    return page_count(made)


def check_book(file: str | Path) -> None:
    """Raise before long work what would keep a book from being written after it.

    Raises CannotUse when the name is not that of a PDF or there is no folder for it, WorldFailed
    when it is write-protected.
    """
    if Path(file).suffix.lower() not in BOOKS:
        raise CannotUse(f"{file} is not written: its name should end in .pdf")
    check_place(Path(file), is_new=False)


def write_words(file: str | Path, text: str) -> None:
    """Write a paper as text or Markdown, in place of an earlier one.

    Raises CannotUse when the name is not that of such a file, WorldFailed when it cannot be
    written; what was there is then as it was.
    """
    if Path(file).suffix.lower() not in WORDS:
        raise CannotUse(f"{file} is not written: its name should end in {' or '.join(WORDS)}")
    write_atomically(Path(file), text)


def check_report(file: str | Path) -> None:
    """Raise before long work what would keep its report from being written after it.

    Pages, PDF and Markdown take the place of earlier ones; a text has to be a new file. Raises
    CannotUse, also when the name is none of these, and WorldFailed.
    """
    ending = Path(file).suffix.lower()
    if ending not in REPORTS:
        raise CannotUse(f"{file} would not be written: its name should end in {', '.join(REPORTS)}")
    check_place(Path(file), is_new=ending == ".txt")


def check_new(file: str | Path) -> None:
    """Raise before long work what would keep its outcome from being written into a new file."""
    check_place(Path(file), is_new=True)


def typeset(book: Book, *, paper: str) -> bytes:
    """A book as PDF. Raises WorldFailed when the typesetter is not there, or fails."""
    from thruline.outside.pdf import book_pdf  # noqa: PLC0415 - only for papers

    return book_pdf(book, paper=paper)


@dataclass(frozen=True, slots=True)
class Leaf:
    """A page of a PDF: its size in points, and the part that it belongs to."""

    width: float
    height: float
    part: str


def leaves_of(pdf: bytes) -> Iterator[Leaf]:
    """The pages of a print, in their order; the part is empty before the first."""
    from thruline.outside.pdf import page_sizes, part_starts  # noqa: PLC0415 - only for papers

    starts, part = part_starts(pdf), ""
    for number, (width, height) in enumerate(page_sizes(pdf), 1):
        part = starts.get(number, part)
        yield Leaf(width, height, part)


def pictures_of(pdf: bytes, pages: Sequence[int], *, scale: float) -> list[bytes]:
    """Pages, numbered from 1, as PNG; `scale` is pixels a point.

    Raises CannotUse when there is no such page.
    """
    from thruline.outside.pdf import page_pictures  # noqa: PLC0415 - only for papers

    return page_pictures(pdf, pages, scale=scale)


def today() -> str:
    """The date here, as it is printed: `3 April 2026`."""
    now = datetime.now().astimezone()
    return f"{now.day} {now:%B %Y}"
