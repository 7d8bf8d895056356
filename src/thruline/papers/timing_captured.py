"""A capture over a timing chart: computed pale, captured dark, in the same rows."""

from collections.abc import Iterator

from thruline.papers.svg import element, points, text_of
from thruline.papers.timing_layout import TINY_LOUD
from thruline.papers.timing_marks import falls
from thruline.papers.timing_pen import DOT, Pen
from thruline.papers.timing_words import fall_words
from thruline.timing.captured import Captured
from thruline.timing.ending import Mark
from thruline.timing.falls import Fall

PALE = 0.28
LEGEND = (
    "Pale: as computed. Dark: as it was captured; below the place where one listened, how it goes "
    "on from there by computation. Times count from the first message that came."
)


def overlaid(pen: Pen, captured: Captured) -> Iterator[str]:
    """The falls of the picture, pale, and over them those that were heard."""
    yield element("g", *falls(pen), opacity=PALE, data_part="computed")
    yield element("g", *_dark(pen, captured), data_part="captured")


def _dark(pen: Pen, captured: Captured) -> Iterator[str]:
    layout, palette = pen.layout, pen.palette
    for fall in captured.falls:
        yield _fall(pen, fall)
        last = fall.points[-1]
        if fall.end.mark is not Mark.CROSS:
            x, y = layout.x(last.us), layout.y(last.row)
            yield pen.mark(x, y, mark=fall.end.mark, colour=pen.colour(fall.unit))
    for point in captured.missing:
        x, y = layout.x(point.us), layout.y(point.row)
        yield pen.titled("computed to come here, and not heard", pen.cross(x, y, DOT))
        yield pen.text(x + DOT + 3, y - 6, "missing", style=TINY_LOUD, colour=palette.fault)
    for point in captured.strays:
        x, y = layout.x(point.us), layout.y(point.row)
        ring = pen.mark(x, y, mark=Mark.RING, colour=palette.fault)
        yield pen.titled("heard here, and not in the plan", ring)
        yield pen.text(x + DOT + 3, y + 13, "not planned", style=TINY_LOUD, colour=palette.fault)


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
