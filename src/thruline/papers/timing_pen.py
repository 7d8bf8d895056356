"""What every part of a timing chart is drawn with: text on halos, marks, the colours of units."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from thruline.papers.colours import Palette
from thruline.papers.svg import element, text_of
from thruline.papers.text_width import WIDEST, text_width
from thruline.papers.timing_layout import SMALL, Layout, Style
from thruline.timing.ending import Mark
from thruline.timing.picture import Picture

DOT = 4.6
HALO = 3.5


@dataclass(frozen=True)
class Pen:
    """A picture, where everything stands, and in which colours."""

    picture: Picture
    layout: Layout
    palette: Palette

    @cached_property
    def colours(self) -> dict[int, str]:
        """The colour of each row that messages are for, in use order."""
        used = {fall.unit for fall in self.picture.falls if fall.unit is not None}
        rows = [place for place, row in enumerate(self.picture.rows) if row.unit in used]
        return {row: self.palette.line(order) for order, row in enumerate(rows)}

    def colour(self, unit: str | None) -> str:
        """The colour of a unit's messages."""
        for row, colour in self.colours.items():
            if self.picture.rows[row].unit == unit:
                return colour
        return self.palette.quiet

    def text(
        self,
        x: float,
        y: float,
        says: str,
        *,
        style: Style,
        colour: str | None = None,
        anchor: str | None = None,
    ) -> str:
        """A text, on a halo so that it stays legible over lines."""
        return element(
            "text",
            text_of(says),
            x=x,
            y=y,
            fill=colour or self.palette.ink,
            font_size=style.size,
            font_weight="700" if style.bold else None,
            text_anchor=anchor,
            stroke=self.palette.ground,
            stroke_width=HALO,
            stroke_linejoin="round",
            paint_order="stroke",
        )

    def titled(self, whole: str, drawn: str) -> str:
        """Something drawn, with a text that is shown when one points at it."""
        return element("g", element("title", text_of(whole)), drawn)

    def crossings(self, y: float) -> list[float]:
        """Where falls pass a height."""
        found = []
        for fall in self.picture.falls:
            for start, end in pairwise(fall.points):
                high, low = self.layout.y(start.row), self.layout.y(end.row)
                if high <= y <= low and low > high:
                    left, right = self.layout.x(start.us), self.layout.x(end.us)
                    found.append(left + (right - left) * (y - high) / (low - high))
        return found

    def clearest(self, y: float, width: float, *, places: Sequence[float]) -> float:
        """The place, of some, at which a text this wide is crossed by the fewest falls."""
        crossings = self.crossings(y)

        def crossed(x: float) -> int:
            return sum(x - 2 <= each <= x + width + 2 for each in crossings)

        return min(places, key=crossed)

    def mark(self, x: float, y: float, *, mark: Mark, colour: str) -> str:
        """The end of a fall: a dot, a cross or a ring."""
        match mark:
            case Mark.DOT:
                return element("circle", cx=x, cy=y, r=DOT, fill=colour, stroke=self.palette.ground)
            case Mark.RING:
                return element(
                    "circle",
                    cx=x,
                    cy=y,
                    r=DOT - 0.5,
                    fill=self.palette.ground,
                    stroke=colour,
                    stroke_width=2,
                )
            case Mark.CROSS:
                return self.cross(x, y, DOT)

    def cross(self, x: float, y: float, arm: float) -> str:
        """A red cross with arms of this length."""
        there, back = f"l{2 * arm:g} {2 * arm:g}", f"l{-2 * arm:g} {2 * arm:g}"
        return element(
            "path",
            d=f"M{x - arm:.1f} {y - arm:.1f}{there}m0 {-2 * arm:g}{back}",
            stroke=self.palette.fault,
            stroke_width=2.6,
            stroke_linecap="round",
            fill="none",
        )

    def key(self, x: float, y: float) -> Iterator[str]:
        """Every mark with its meaning."""
        middle = y - 4
        ink = self.palette.quiet
        for mark, says in (
            (Mark.DOT, "obeyed"),
            (Mark.CROSS, "not obeyed"),
            (Mark.RING, "changes nothing, or cannot be told"),
        ):
            yield self.mark(x + 5, middle, mark=mark, colour=ink)
            yield self.text(x + 15, y, says, style=SMALL, colour=ink)
            x += 15 + text_width(says, SMALL.size) * WIDEST + 22
        yield element("rect", x=x, y=middle - 6, width=26, height=12, fill=ink, fill_opacity=0.28)
        says = "loading (fully tinted: deaf to control changes)"
        yield self.text(x + 33, y, says, style=SMALL, colour=ink)
        x += 33 + text_width(says, SMALL.size) * WIDEST + 22
        yield self.tick(x + 2, middle)
        yield self.text(x + 9, y, "right from here on", style=SMALL, colour=ink)

    def tick(self, x: float, y: float) -> str:
        """The moment at which one unit is right."""
        return element(
            "line",
            x1=x,
            x2=x,
            y1=y - 9,
            y2=y + 9,
            stroke=self.palette.proved,
            stroke_width=2.2,
        )
