"""The timing chart as a drawing: SVG text that needs nothing else.

Units down the left side as stations of a line, time to the right, each message a line that falls.
"""

from collections.abc import Iterator

from thruline.papers.colours import DARK, LIGHT, Palette
from thruline.papers.svg import element, text_of
from thruline.papers.text_width import WIDEST, fitted, text_width, wrapped
from thruline.papers.timing_captured import LEGEND as CAPTURED_LEGEND
from thruline.papers.timing_captured import overlaid
from thruline.papers.timing_layout import (
    HEAD,
    LEGEND_PITCH,
    MARGIN,
    SMALL,
    SUM,
    SUM_STYLE,
    TITLE,
    layout_of,
)
from thruline.papers.timing_marks import bars, crosses, falls, labels, numbers, rights
from thruline.papers.timing_pen import Pen
from thruline.papers.timing_rails import rails, stations
from thruline.papers.timing_words import LEGEND, headline, sentences
from thruline.timing.captured import Captured
from thruline.timing.picture import Picture

WIDTH = 1120
FACES = "'Helvetica Neue', Helvetica, Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif"


def timing_svg(
    picture: Picture,
    *,
    dark: bool = False,
    palette: Palette | None = None,
    width: int = WIDTH,
    name: str = "timing",
    captured: Captured | None = None,
) -> str:
    """The drawing of a timing chart, `width` pixels wide and as high as it needs.

    With `captured`, what was really heard is drawn over what was computed. `palette` overrides
    `dark`: a page that brings one brings its style too. `name` begins the ids inside, so that
    several charts can stand in one page.
    """
    reading = LEGEND if captured is None else f"{LEGEND} {CAPTURED_LEGEND}"
    legend = wrapped(reading, (width - 2 * MARGIN) / WIDEST, size=SMALL.size)
    last_us = captured.last_us if captured else 0
    layout = layout_of(picture, width=width, legend_rows=len(legend) + 1, also_us=last_us)
    pen = Pen(picture, layout, palette or (DARK if dark else LIGHT))
    drawn = (
        element("title", text_of(_title(picture)), id=f"{name}-title"),
        element("desc", text_of(" ".join(sentences(picture))), id=f"{name}-desc"),
        element("rect", width="100%", height="100%", fill=pen.palette.ground),
        *_head(pen),
        *_scale(pen),
        *rails(pen),
        *stations(pen),
        *bars(pen),
        *_all_right(pen),
        *(falls(pen) if captured is None else overlaid(pen, captured)),
        *labels(pen),
        *rights(pen),
        *crosses(pen),
        *numbers(pen),
        *_sum(pen),
        *_legend(pen, legend),
    )
    return element(
        "svg",
        *drawn,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {layout.width} {layout.height}",
        width=layout.width,
        height=layout.height,
        role="img",
        aria_labelledby=f"{name}-title {name}-desc",
        font_family=FACES,
        style=None if palette else "font-variant-numeric: tabular-nums",
    )


def _title(picture: Picture) -> str:
    return f"{picture.title}: {headline(picture)}" if picture.title else headline(picture)


def _head(pen: Pen) -> Iterator[str]:
    """What is pressed, and where one comes from."""
    room = pen.layout.width - 2 * MARGIN
    shown = fitted(pen.picture.title, room, size=TITLE.size, bold=True)
    yield pen.text(MARGIN, 38, shown, style=TITLE)


def _scale(pen: Pen) -> Iterator[str]:
    """Times above, a faint rule below each; a dotted rule along each row."""
    layout, palette = pen.layout, pen.palette
    top = HEAD - 34
    for us in layout.ticks_us:
        x = layout.x(us)
        yield element(
            "line", x1=x, x2=x, y1=top + 6, y2=layout.bottom, stroke=palette.rule, stroke_width=1
        )
        yield pen.text(x, top, _tick(us), style=SMALL, colour=palette.quiet, anchor="middle")
    for place in range(layout.rows):
        y = layout.y(place)
        yield element(
            "line",
            x1=layout.zero,
            x2=layout.end,
            y1=y,
            y2=y,
            stroke=palette.rule,
            stroke_width=1.2,
            stroke_dasharray="1.5 4",
        )


def _tick(us: int) -> str:
    return f"{us // 1000} ms" if us < 1_000_000 else f"{us / 1_000_000:g} s"


def _all_right(pen: Pen) -> Iterator[str]:
    """The moment at which everything is right; dashed where not everything is."""
    picture, layout = pen.picture, pen.layout
    if not picture.right_us:
        return
    x = layout.x(picture.right_us)
    good = not picture.is_wrong
    yield element(
        "line",
        x1=x,
        x2=x,
        y1=HEAD - 28,
        y2=layout.bottom + 12,
        stroke=pen.palette.proved if good else pen.palette.quiet,
        stroke_width=2.5 if good else 1.5,
        stroke_dasharray=None if good else "5 4",
    )


def _sum(pen: Pen) -> Iterator[str]:
    """The sum in words, at the foot of the line that it is about, never cut off."""
    picture, layout, palette = pen.picture, pen.layout, pen.palette
    says = headline(picture)
    width = text_width(says, SUM_STYLE.size, bold=True) * WIDEST
    x = layout.x(picture.right_us) if picture.right_us else layout.zero
    start = min(x - 1, layout.width - MARGIN - width)
    colour = palette.proved
    if picture.is_wrong:
        colour = palette.fault
    elif picture.untold or not picture.messages:
        colour = palette.ink
    y = layout.bottom + 28
    yield pen.text(max(MARGIN, start), y, says, style=SUM_STYLE, colour=colour)


def _legend(pen: Pen, rows: list[str]) -> Iterator[str]:
    """How to read it, in words and with each mark once."""
    layout, palette = pen.layout, pen.palette
    y = layout.bottom + SUM + 12
    for row in rows:
        yield pen.text(MARGIN, y, row, style=SMALL, colour=palette.quiet)
        y += LEGEND_PITCH
    yield from pen.key(MARGIN, y + 5)
