"""Printed pages read back: where every word stands."""

from collections.abc import Iterator
from dataclasses import dataclass

import pypdfium2


@dataclass(frozen=True)
class Word:
    """A word on a page, points from the left and from the foot."""

    text: str
    left: float
    low: float
    right: float
    high: float


def words_on(page: pypdfium2.PdfPage) -> Iterator[Word]:
    """Every word of a page, from the boxes of its letters."""
    text = page.get_textpage()
    run: list[tuple[str, tuple[float, float, float, float]]] = []
    for place, letter in enumerate(text.get_text_range()):
        if place >= text.count_chars():
            break
        if letter.isspace() or not letter.isprintable():
            yield from _word(run)
            run = []
            continue
        box = text.get_charbox(place)
        if run and (abs(box[1] - run[-1][1][1]) > 9 or box[0] < run[-1][1][0] - 3):
            yield from _word(run)
            run = []
        run.append((letter, box))
    yield from _word(run)


def _word(run: list[tuple[str, tuple[float, float, float, float]]]) -> Iterator[Word]:
    if run:
        boxes = [box for _, box in run]
        yield Word(
            "".join(letter for letter, _ in run),
            min(box[0] for box in boxes),
            min(box[1] for box in boxes),
            max(box[2] for box in boxes),
            max(box[3] for box in boxes),
        )


def text_of(pdf: bytes) -> str:
    """All that a search in the file would find."""
    with pypdfium2.PdfDocument(pdf) as document:
        return "\n".join(page.get_textpage().get_text_range() for page in document)


def amiss(pdf: bytes, *, edge: float = 20, slack: float = 1.2) -> list[str]:
    """Words that leave their page or lie over one another; none is as it should be."""
    found = []
    with pypdfium2.PdfDocument(pdf) as document:
        for number, page in enumerate(document, 1):
            width, height = page.get_size()
            words = sorted(words_on(page), key=lambda one: one.left)
            for place, one in enumerate(words):
                inside = edge <= one.left and one.right <= width - edge
                if not (inside and edge <= one.low and one.high <= height - edge):
                    found.append(f"page {number}: {one.text} leaves the page")
                for other in words[place + 1 :]:
                    if other.left >= one.right - slack:
                        break
                    if one.low + slack < other.high and other.low + slack < one.high:
                        found.append(f"page {number}: {one.text} over {other.text}")
    return found
