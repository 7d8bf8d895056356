"""A capture over a timing chart: computed pale, captured dark, in the same rows."""

from collections.abc import Iterable, Iterator
from itertools import zip_longest

from thruline.papers.svg import element, points, text_of
from thruline.papers.timing_layout import TINY_LOUD
from thruline.papers.timing_marks import falls
from thruline.papers.timing_pen import DOT, Pen
from thruline.papers.timing_words import fall_words
from thruline.timing.captured import Captured
from thruline.timing.ending import Mark
from thruline.timing.falls import Fall, Point

PALE = 0.28
WORD_WIDE = 80
"""Room that a word beside a mark takes, in the units of the drawing."""
LEGEND = (
    "Pale: as computed. Dark: as it was captured; below the place where one listened, how it goes "
    "on from there by computation. Times count from the first message that came."
)


def overlaid(pen: Pen, captured: Captured) -> Iterator[str]:
    """The falls of the picture, pale, and over them those that were heard."""
    yield element("g", *falls(pen), opacity=PALE, data_part="computed")
    yield element("g", *_dark(pen, captured), data_part="captured")


def _dark(pen: Pen, captured: Captured) -> Iterator[str]:
    layout = pen.layout
    for fall in captured.falls:
        yield _fall(pen, fall)
        last = fall.points[-1]
        if fall.end.mark is not Mark.CROSS:
            x, y = layout.x(last.us), layout.y(last.row)
            yield pen.mark(x, y, mark=fall.end.mark, colour=pen.colour(fall.unit))
    yield from _spots(pen, captured.missing, "missing", up=6)
    yield from _spots(pen, captured.strays, "not planned", up=-13)


def _spots(pen: Pen, spots: Iterable[Point], word: str, *, up: int) -> Iterator[str]:
    """Crosses where something is missing, rings where something came besides.

    The word stands at the last of those that stand close together.
    """
    layout, palette = pen.layout, pen.palette
    places = sorted((layout.y(one.row), layout.x(one.us)) for one in spots)
    for here, after in zip_longest(places, places[1:]):
        y, x = here
        if word == "missing":
            yield pen.titled("computed to come here, and not heard", pen.cross(x, y, DOT))
        else:
            ring = pen.mark(x, y, mark=Mark.RING, colour=palette.fault)
            yield pen.titled("heard here, and not in the plan", ring)
        if after is None or after[0] != y or after[1] - x > WORD_WIDE:
            yield pen.text(x + DOT + 3, y - up, word, style=TINY_LOUD, colour=palette.fault)


def _fall(pen: Pen, fall: Fall) -> str:
    layout = pen.layout
    return element(
        "polyline",
        element("title", text_of(f"captured: {fall_words(pen.picture, fall)}")),
        points=points((layout.x(point.us), layout.y(point.row)) for point in fall.points),
        data_message=fall.message + 1,
        fill="none",
        stroke=pen.colour(fall.unit),
        stroke_width=2.6,
        stroke_linejoin="round",
    )
