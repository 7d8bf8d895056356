"""The timing chart for the terminal: units down, time across, every message a line that falls."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from thruline.base.measures import shown_ms
from thruline.cli.canvas import Canvas, Style, fitted, in_ascii
from thruline.papers.timing_layout import step_us
from thruline.papers.timing_words import end_word
from thruline.rig.chart import Meanwhile
from thruline.timing.ending import Mark
from thruline.timing.falls import Fall
from thruline.timing.picture import Picture
from thruline.timing.rows import Row, RowKind

NAMES_SHARE = 36
"""Percent of the width that names may take."""
RIGHT = 10
"""Columns for the time at which each unit is right."""
TALL = 16
"""With more units than this, each has one row of text and not two."""
LINES = 5
GROUND, FALL, BAR, WORD, END = 1, 3, 2, 4, 5
"""Ranks: what is drawn over what."""

_ENDS = {Mark.DOT: "●", Mark.CROSS: "✕", Mark.RING: "?"}


def timing_rows(
    picture: Picture, *, width: int = 100, style: Style | None = None, ascii_only: bool = False
) -> list[str]:
    """The picture as rows of text, at most `width` columns wide."""
    drawing = _Drawing(picture, width)
    rows = [*drawing.draw().rows(style or (lambda text, _: text))]
    return in_ascii(rows) if ascii_only else rows


@dataclass(frozen=True)
class _Drawing:
    """A picture and how its columns are shared out."""

    picture: Picture
    width: int

    @cached_property
    def tall(self) -> int:
        """Rows of text that each unit has."""
        return 2 if len(self.picture.rows) <= TALL else 1

    @cached_property
    def rails(self) -> int:
        """Columns of the line and its branches."""
        squares = any(row.kind is RowKind.LOOP for row in self.picture.rows)
        lanes = max((row.lane for row in self.picture.rows), default=0) + 1 + squares
        return 2 * lanes

    @cached_property
    def zero(self) -> int:
        """The column of the press."""
        names = [max(len(row.name), len(row.about)) for row in self.picture.rows]
        return self.rails + min(self.width * NAMES_SHARE // 100, max(names, default=0)) + 2

    @cached_property
    def end(self) -> int:
        """The column where the scale ends."""
        return self.width - RIGHT - 1

    @cached_property
    def span_us(self) -> int:
        """The time up to there."""
        return self.picture.span_us

    def column(self, us: int) -> int:
        """The column of a moment."""
        return self.zero + (self.end - self.zero) * us // self.span_us

    def row(self, place: int) -> int:
        """The row of text of a row of the picture; two are above them all."""
        return 2 + self.tall * place

    @cached_property
    def colours(self) -> dict[str, str]:
        """The style of each unit that messages are for, in use order."""
        used = {fall.unit for fall in self.picture.falls}
        units = [row.unit for row in self.picture.rows if row.unit in used]
        return {unit: f"line-{place % LINES}" for place, unit in enumerate(units)}

    def draw(self) -> Canvas:
        canvas = Canvas(2 + self.tall * len(self.picture.rows), self.width)
        _scale(self, canvas)
        for place, row in enumerate(self.picture.rows):
            _names(self, canvas, place, row)
        _rails(self, canvas)
        _bars(self, canvas)
        for fall in self.picture.falls:
            _fall(self, canvas, fall)
        _ends(self, canvas)
        _remarks(self, canvas)
        _all_right(self, canvas)
        return canvas


def _scale(here: _Drawing, canvas: Canvas) -> None:
    """Times above, faint dots below them; the numbers of the messages where they leave."""
    step, free = step_us(here.span_us), 0
    for us in range(0, here.span_us + 1, step):
        column = here.column(us)
        says = f"{us // 1000}" if us else "0 ms"
        if column >= free and column + len(says) <= here.end + 2:
            canvas.put(0, column, says, style="quiet")
            free = column + len(says) + 1
        for place in range(len(here.picture.rows)):
            canvas.put(here.row(place), column, "·", style="quiet", rank=GROUND)
    canvas.put(0, here.width - RIGHT + 1, "right at", style="quiet")
    free = 0
    for number, message in enumerate(here.picture.messages, 1):
        column, says = here.column(message.leaves_us), str(number)
        if column >= free:
            canvas.put(1, column, says, style=here.colours.get(message.unit or "", "quiet"))
            free = column + len(says) + (len(says) > 1)


def _names(here: _Drawing, canvas: Canvas, place: int, row: Row) -> None:
    """The name of a unit, what it is, and when it is right."""
    at, room = here.row(place), here.zero - here.rails - 2
    silent = bool(row.silent)
    canvas.put(at, here.rails, fitted(row.name, room), style="quiet" if silent else "strong")
    if here.tall > 1:
        canvas.put(at + 1, here.rails, fitted(row.about, room), style="quiet")
    if row.right_us is not None:
        says = shown_ms(row.right_us)
        canvas.put(at, here.width - len(says), says, style="good")


def _rails(here: _Drawing, canvas: Canvas) -> None:
    """The line from station to station."""
    rows = here.picture.rows
    for place, row in enumerate(rows):
        if row.above is not None:
            letter = "╎" if row.silent else "│"
            colour = "quiet" if row.silent else f"line-{row.line % LINES}"
            lane = 2 * rows[row.above].lane
            for at in range(here.row(row.above) + 1, here.row(place)):
                canvas.put(at, lane, letter, style=colour, rank=0 if row.silent else 1)
            if row.lane != rows[row.above].lane:
                canvas.put(here.row(place), lane, "├─", style=colour, rank=2)
    for place, row in enumerate(rows):
        letter, colour = _station(row)
        square = row.kind is RowKind.LOOP
        lane = here.rails - 2 if square else 2 * row.lane
        canvas.put(here.row(place), lane, letter, style=colour, rank=3)


def _station(row: Row) -> tuple[str, str]:
    """The letter and the style of a station."""
    match row.kind:
        case RowKind.CONTROLLER:
            return "◉", "strong"
        case RowKind.LOOP:
            return ("■" if row.state == "in" else "□"), "quiet"
        case RowKind.UNIT:
            return ("◌", "quiet") if row.silent else ("○", f"line-{row.line % LINES}")


def _bars(here: _Drawing, canvas: Canvas) -> None:
    """Spans of loading."""
    for bar in here.picture.bars:
        letter = {Meanwhile.LOST: "▒", Meanwhile.HELD: "░"}.get(
            bar.meanwhile or Meanwhile.OBEYED, "╌"
        )
        first, last = here.column(bar.start_us), here.column(bar.end_us)
        style = here.colours.get(here.picture.rows[bar.row].unit, "quiet")
        canvas.put(here.row(bar.row), first, letter * max(1, last - first), style=style, rank=BAR)


def _fall(here: _Drawing, canvas: Canvas, fall: Fall) -> None:
    """One message on its way: a step to the right wherever time passes a column."""
    style = here.colours.get(fall.unit or "", "quiet")
    for start, end in pairwise(fall.points):
        top, bottom = here.row(start.row), here.row(end.row)
        left, right = here.column(start.us), here.column(end.us)
        before = left
        for at in range(top, bottom + 1):
            column = left + (right - left) * (at - top) // max(1, bottom - top)
            if column - before > 1:
                canvas.put(at, before, "╰" + "─" * (column - before - 1), style=style, rank=FALL)
            letter = "│" if column == before else "╲" if column - before == 1 else "╮"
            canvas.put(at, column, letter, style=style, rank=FALL)
            before = column


def _ends(here: _Drawing, canvas: Canvas) -> None:
    """How messages end; a word behind a cross where there is room; when units are right."""
    for row_place, row in enumerate(here.picture.rows):
        if row.right_us is not None:
            canvas.put(
                here.row(row_place), here.column(row.right_us), "┃", style="good", rank=END - 1
            )
    for fall in here.picture.falls:
        last = fall.points[-1]
        stray = "fault" if fall.end.mark is Mark.CROSS or not fall.for_it else ""
        style = stray or here.colours.get(fall.unit or "", "quiet")
        canvas.put(
            here.row(last.row), here.column(last.us), _ENDS[fall.end.mark], style=style, rank=END
        )
    for fall in reversed(here.picture.failed):
        last = fall.points[-1]
        at, column, says = here.row(last.row), here.column(last.us) + 2, end_word(fall)
        if canvas.is_free(at, column, count=len(says) + 1, rank=FALL):
            canvas.put(at, column, says, style="fault", rank=WORD)


def _remarks(here: _Drawing, canvas: Canvas) -> None:
    """What relays are put to, and why nothing arrives, right of the messages that pass."""
    for place, row in enumerate(here.picture.rows):
        at = here.row(place)
        if row.kind is RowKind.LOOP:
            says = f"put {row.state} by a relay at the press"
            canvas.put(at, _clear(here, canvas, at), says, style="quiet", rank=BAR)
        elif row.is_cut:
            column = _clear(here, canvas, at)
            for below, says in enumerate(_two_rows(here, row.silent, here.width - column)):
                canvas.put(at + below, column, says, style="fault", rank=WORD)
        elif row.silent:
            says = "nothing arrives"
            canvas.put(at, _clear(here, canvas, at), says, style="quiet", rank=WORD)


def _clear(here: _Drawing, canvas: Canvas, at: int) -> int:
    """The column right of everything that passes a row; the press, if that leaves no room."""
    passing = [place for place in range(here.zero, here.end) if canvas.at(at, place).rank >= FALL]
    column = max(passing, default=here.zero - 2) + 2
    return column if column < here.width // 2 + here.zero // 2 else here.zero


def _two_rows(here: _Drawing, silent: str, room: int) -> Iterator[str]:
    """Why nothing arrives, over two rows of text where units have two."""
    says = f"✕ nothing arrives: {silent}"
    if len(says) <= room or here.tall == 1:
        yield fitted(says, room)
    else:
        yield "✕ nothing arrives:"
        yield fitted(f"  {silent}", room)


def _all_right(here: _Drawing, canvas: Canvas) -> None:
    """The moment at which everything is right, down all rows."""
    picture = here.picture
    if picture.right_us:
        good = not picture.is_wrong
        for at in range(1, canvas.height):
            canvas.put(
                at,
                here.column(picture.right_us),
                "║" if good else "┊",
                style="good" if good else "quiet",
                rank=GROUND,
            )


def sum_style(picture: Picture) -> str:
    """The style of the sum in words."""
    if picture.is_wrong:
        return "fault"
    return "strong" if picture.untold or not picture.messages else "good"


def key_rows(picture: Picture) -> Iterator[str]:
    """What the signs mean, those that are used."""
    signs = ["● obeyed"]
    if picture.failed:
        signs.append("✕ not obeyed")
    if picture.untold:
        signs.append("? changes nothing, or cannot be told")
    kinds: Sequence[Meanwhile | None] = [bar.meanwhile for bar in picture.bars]
    if Meanwhile.LOST in kinds:
        signs.append("▒ loading, deaf to control changes")
    if Meanwhile.HELD in kinds:
        signs.append("░ loading, keeps them")
    if Meanwhile.OBEYED in kinds or None in kinds:
        signs.append("╌ loading")
    signs.append("┃ right")
    yield "   ".join(signs)
