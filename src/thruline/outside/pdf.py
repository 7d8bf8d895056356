"""Papers typeset by a library: as PDF to print and keep, and as pictures of its pages.

The same book gives the same bytes: there is no clock in it, and only letters that travel with the
program are used. Where a text has letters that those faces lack, the faces of this computer help.
"""

from collections.abc import Mapping, Sequence
from importlib import import_module
from importlib.resources import files
from io import BytesIO
from pathlib import Path
from types import ModuleType
from typing import Any

from thruline.base.errors import CannotUse, WorldFailed
from thruline.papers.book import Book
from thruline.papers.book_data import book_data

MISSING_LETTER = "could not be displayed"
TEMPLATE = "book.typ"
BEGINS = b"%PDF-"
"""The first bytes of every PDF."""
COLOURS, NO_DITHER = 32, 0
"""Of a picture of a page; dots in place of a colour would blur its letters."""
MOST_ENCLOSED = 400
MOST_BYTES = 64_000_000
"""No book is larger."""
MOST_DOCUMENT = 8_000_000
"""No document inside one is."""


def book_pdf(book: Book, *, paper: str) -> bytes:
    """The book as PDF (PDF/UA-1, tagged), `paper` being `a4` or `letter`.

    Raises WorldFailed when the typesetter is not installed, or fails.
    """
    typst = _package("typst", "the typesetter")
    given = _given(book, paper)
    try:
        made: bytes = typst.compile(**given, ignore_system_fonts=True, pdf_standards=["ua-1"])
    except typst.TypstError as trouble:
        if MISSING_LETTER not in str(trouble):
            raise _failed(trouble) from trouble
        return _with_other_faces(typst, given)
    return made


def _with_other_faces(typst: ModuleType, given: Mapping[str, Any]) -> bytes:
    """The book with the faces of this computer; letters that none of them has are empty boxes."""
    try:
        made: bytes = typst.compile(**given)
    except typst.TypstError as trouble:
        raise _failed(trouble) from trouble
    return made


def _given(book: Book, paper: str) -> Mapping[str, Any]:
    template = files("thruline.papers").joinpath(TEMPLATE).read_bytes()
    inside = {f"file-{place}": one.content.decode() for place, one in enumerate(book.enclosed)}
    faces = Path(_package("font_source_sans_pro", "the faces of papers").__file__ or "").parent
    return {
        "input": template,
        "font_paths": [faces / "files"],
        "sys_inputs": {"book": book_data(book, paper), **inside},
    }


def _package(name: str, what: str) -> ModuleType:
    try:
        return import_module(name)
    except ImportError as trouble:
        install = name.replace("_", "-")
        raise WorldFailed(f"{what} cannot be used: python -m pip install {install}") from trouble


def _failed(trouble: Exception) -> WorldFailed:
    return WorldFailed(f"the typesetter failed: {trouble}")


def page_count(pdf: bytes) -> int:
    """How many pages a PDF has. Raises CannotUse when it is none."""
    reader = _reader()
    with _opened(reader, pdf) as document:
        return len(document)


def page_sizes(pdf: bytes) -> list[tuple[float, float]]:
    """Width and height of every page, in points."""
    with _opened(_reader(), pdf) as document:
        return [document.get_page_size(place) for place in range(len(document))]


def part_starts(pdf: bytes) -> Mapping[int, str]:
    """The titles of the parts, by the page on which each begins, counted from 1."""
    with _opened(_reader(), pdf) as document:
        return {
            mark.get_dest().get_index() + 1: mark.get_title()
            for mark in document.get_toc()
            if mark.level == 0 and mark.get_dest() is not None
        }


def page_pictures(pdf: bytes, pages: Sequence[int], *, scale: float) -> list[bytes]:
    """Pages of a PDF, numbered from 1, as PNG of few colours; `scale` is pixels a point.

    A page has ink, paper and some tints: with a palette its picture is a quarter of the size.
    Raises CannotUse when there is no such page.
    """
    reader = _reader()
    found = []
    with _opened(reader, pdf) as document:
        for number in pages:
            if not 1 <= number <= len(document):
                raise CannotUse(f"there is no page {number}; the last is {len(document)}")
            written = BytesIO()
            drawn = document[number - 1].render(scale=scale).to_pil().convert("RGB")
            plain = drawn.quantize(COLOURS, dither=NO_DITHER)
            plain.save(written, "PNG", optimize=True)
            found.append(written.getvalue())
    return found


def enclosed_in(pdf: bytes, file: str) -> Mapping[str, bytes]:
    """What travels inside a PDF, by name.

    Raises CannotUse when it cannot be read, or holds more than any book does.
    """
    reader = _reader()
    found: dict[str, bytes] = {}
    try:
        with _opened(reader, pdf) as document:
            if document.count_attachments() > MOST_ENCLOSED:
                raise CannotUse(f"{file} holds more files than any book does")
            for place in range(document.count_attachments()):
                inside = document.get_attachment(place)
                content = bytes(inside.get_data())
                if len(content) > MOST_DOCUMENT:
                    raise CannotUse(f"{file} holds a file that is too large for a document")
                found[inside.get_name()] = content
    except reader.PdfiumError as trouble:
        raise CannotUse(f"{file} cannot be read as a book: {trouble}") from None
    return found


def _reader() -> ModuleType:
    return _package("pypdfium2", "the reader of books")


def _opened(reader: ModuleType, pdf: bytes) -> Any:  # noqa: ANN401 - the library has no types
    return reader.PdfDocument(pdf)
