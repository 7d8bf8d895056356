"""The left side of a timing chart: the line with its stations, their names, and where it is cut."""

from collections.abc import Iterator

from thruline.papers.svg import element
from thruline.papers.text_width import fitted
from thruline.papers.timing_layout import NAME, SMALL
from thruline.papers.timing_pen import Pen
from thruline.timing.rows import Row, RowKind

RAIL, RING, CORE = 8, 11, 3.6
CURVE = 18


def rails(pen: Pen) -> Iterator[str]:
    """The line from every station to those behind it; dashed and grey where it is cut."""
    order = sorted(
        (row for row in pen.picture.rows if row.above is not None),
        key=lambda row: not row.silent,
    )
    for row in order:
        yield from _rail(pen, row)


def _rail(pen: Pen, row: Row) -> Iterator[str]:
    rows, layout = pen.picture.rows, pen.layout
    if row.above is None:
        return
    here = rows.index(row)
    colour = pen.palette.rule if row.silent else pen.palette.line(row.line)
    yield _track(pen, row.above, here, colour=colour, dashed=bool(row.silent))
    for join in row.joins:
        yield _track(pen, join, here, colour=colour, dashed=False, narrow=True)
    if row.is_cut:
        yield pen.cross(layout.lane(row.lane), layout.y(here) - RING - 9, 5)


def _track(
    pen: Pen, above: int, here: int, *, colour: str, dashed: bool, narrow: bool = False
) -> str:
    """A rail: straight down its lane.

    The first branch of a station turns into its lane right below it, others right above theirs.
    """
    rows, layout = pen.picture.rows, pen.layout
    x1, x2 = layout.lane(rows[above].lane), layout.lane(rows[here].lane)
    y1, y2 = layout.y(above), layout.y(here)
    first = all(row.kind is RowKind.LOOP for row in rows[above + 1 : here])
    turn = y1 + RING + 3 if first else y2 - RING - CURVE - 3
    way = f"M{x1:g} {y1:g}"
    if x1 != x2:
        middle = turn + CURVE / 2
        way += f"V{turn:g}C{x1:g} {middle:g} {x2:g} {middle:g} {x2:g} {turn + CURVE:g}"
    return element(
        "path",
        d=f"{way}V{y2:g}",
        stroke=colour,
        stroke_width=3 if narrow else RAIL,
        stroke_dasharray="4 4" if dashed else None,
        fill="none",
    )


def stations(pen: Pen) -> Iterator[str]:
    """A ring for every unit on the line, a square for one in a relay loop; names beside them."""
    for place, row in enumerate(pen.picture.rows):
        yield _square(pen, place, row) if row.kind is RowKind.LOOP else _ring(pen, place, row)
        yield from _names(pen, place, row)


def _ring(pen: Pen, place: int, row: Row) -> str:
    """A ring in the colour of the line; its core has the colour of the unit's messages."""
    colour = pen.palette.line(row.line)
    if row.kind is RowKind.CONTROLLER:
        colour = pen.palette.ink
    if row.silent:
        colour = pen.palette.quiet
    x, y = pen.layout.lane(row.lane), pen.layout.y(place)
    ring = element(
        "circle",
        cx=x,
        cy=y,
        r=RING - 1.5,
        fill=pen.palette.ground,
        stroke=colour,
        stroke_width=4,
    )
    core = pen.colours.get(place)
    return ring + (element("circle", cx=x, cy=y, r=CORE, fill=core) if core else "")


def _square(pen: Pen, place: int, row: Row) -> str:
    """A square, filled when the relay puts the unit in."""
    x, y = pen.layout.lane(pen.layout.lanes), pen.layout.y(place)
    return element(
        "rect",
        x=x - 8.5,
        y=y - 8.5,
        width=17,
        height=17,
        fill=pen.palette.quiet if row.state == "in" else pen.palette.ground,
        stroke=pen.palette.quiet,
        stroke_width=3.5,
    )


def _names(pen: Pen, place: int, row: Row) -> Iterator[str]:
    layout, palette = pen.layout, pen.palette
    for says, style, y in ((row.name, NAME, -2), (row.about, SMALL, 13)):
        shown = fitted(says, layout.names_width, size=style.size, bold=style.bold)
        colour = palette.quiet if row.silent or style is SMALL else palette.ink
        drawn = pen.text(layout.names, layout.y(place) + y, shown, style=style, colour=colour)
        yield drawn if shown == says else pen.titled(says, drawn)
