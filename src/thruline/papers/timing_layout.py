"""Where everything of a timing chart stands on paper: columns, rows and the scale of time."""

from dataclasses import dataclass
from typing import NamedTuple

from thruline.papers.text_width import text_width
from thruline.timing.picture import Picture


class Style(NamedTuple):
    """How a text is set: its size in pixels, and whether it is bold."""

    size: float
    bold: bool = False


TITLE, NAME, SUM_STYLE = Style(19, bold=True), Style(14.5, bold=True), Style(13.5, bold=True)
SMALL, LOUD, TINY, TINY_LOUD = (
    Style(11.5),
    Style(12, bold=True),
    Style(10.5),
    Style(10.5, bold=True),
)
MARGIN, LANE = 28, 26
NAME_MOST = 270
"""The widest that names and what stands below them may be."""
HEAD = 100
"""From the top to the controller's row: title, scale, numbers of messages."""
SUM, LEGEND_PITCH = 46, 17
"""Room for the sum below the rows, and for each row of the legend."""
STEPS_MS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000)
MOST_TICKS = 10


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """Pixels of a chart. `zero` is where time begins, `end` where its scale ends."""

    width: int
    lanes: int
    names: float
    names_width: float
    zero: float
    end: float
    top: float
    pitch: float
    rows: int
    span_us: int
    step_us: int
    legend_rows: int

    def x(self, us: int) -> float:
        """Where a moment is."""
        return self.zero + (self.end - self.zero) * us / self.span_us

    def y(self, row: int) -> float:
        """The middle of a row."""
        return self.top + self.pitch * row

    def lane(self, place: int) -> float:
        """The middle of a lane of the line."""
        return MARGIN + 8 + LANE * place

    @property
    def bottom(self) -> float:
        """Where the rows end."""
        return self.y(self.rows - 1) + self.pitch * 0.55

    @property
    def height(self) -> int:
        """The whole height, with the sum and the legend below the rows."""
        return round(self.bottom + SUM + LEGEND_PITCH * self.legend_rows + MARGIN / 2)

    @property
    def ticks_us(self) -> range:
        """The moments that the scale names."""
        return range(0, self.span_us + 1, self.step_us)


def layout_of(picture: Picture, *, width: int, legend_rows: int, also_us: int = 0) -> Layout:
    """The layout of a picture on paper of this width, with room for a moment besides its own."""
    lanes = max((row.lane for row in picture.rows), default=0) + 1
    squares = any(row.state for row in picture.rows)
    names = MARGIN + 8 + LANE * (lanes + squares) - 2
    widest = max((_name_width(row.name, row.about) for row in picture.rows), default=0)
    names_width = min(NAME_MOST, widest, width * 0.34)
    span_us = max(picture.span_us, also_us)
    step = step_us(span_us)
    count = len(picture.rows)
    pitch = 58 if count <= 12 else 50 if count <= 18 else 44
    return Layout(
        width=width,
        lanes=lanes,
        names=names,
        names_width=names_width,
        zero=names + names_width + 30,
        end=width - MARGIN - 22,
        top=HEAD,
        pitch=pitch,
        rows=count,
        span_us=-(-span_us * 102 // (100 * step)) * step,
        step_us=step,
        legend_rows=legend_rows,
    )


def _name_width(name: str, about: str) -> float:
    return max(text_width(name, NAME.size, bold=True), text_width(about, SMALL.size))


def step_us(span_us: int) -> int:
    """The step of the scale, us: the finest that is not crowded."""
    for step in STEPS_MS:
        if span_us <= step * 1000 * MOST_TICKS:
            return step * 1000
    return -(-span_us // MOST_TICKS // 1_000_000) * 1_000_000
