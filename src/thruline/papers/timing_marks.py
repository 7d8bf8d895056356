"""The right side of a timing chart: loading units, falling messages, their ends, what is right."""

from collections.abc import Iterator
from itertools import zip_longest

from thruline.base.measures import shown_ms
from thruline.papers.svg import element, points, text_of
from thruline.papers.text_width import fitted, text_width
from thruline.papers.timing_layout import HEAD, LOUD, SMALL, TINY, TINY_LOUD
from thruline.papers.timing_pen import DOT, Pen
from thruline.papers.timing_words import bar_sentence, bar_words, end_word, fall_words
from thruline.rig.chart import Meanwhile
from thruline.timing.ending import Mark
from thruline.timing.falls import Fall
from thruline.timing.picture import Bar
from thruline.timing.rows import Row, RowKind

BAR = 14


def bars(pen: Pen) -> Iterator[str]:
    """Spans of loading: filled where the unit is deaf, lighter where it holds or obeys."""
    for bar in pen.picture.bars:
        yield _bar(pen, bar)


def labels(pen: Pen) -> Iterator[str]:
    """What loading units do meanwhile, above their bars where the fewest falls pass."""
    free: dict[int, float] = {}
    for bar in pen.picture.bars:
        left, right = pen.layout.x(bar.start_us) + 7, pen.layout.x(bar.end_us) - 2
        y = pen.layout.y(bar.row) - BAR / 2 - 5
        says = bar_words(bar.meanwhile)
        width = text_width(says, TINY.size)
        last = pen.layout.end - width
        if max(left, free.get(bar.row, 0)) > last:
            continue
        places = [left, *(left + (right - width - left) * part / 4 for part in range(1, 5))]
        fit = [min(max(x, left), last) for x in places]
        x = pen.clearest(y - 3, width, places=fit)
        if x >= free.get(bar.row, 0):
            free[bar.row] = x + width + 8
            yield pen.text(x, y, says, style=TINY, colour=pen.palette.quiet)


def _bar(pen: Pen, bar: Bar) -> str:
    layout = pen.layout
    left, right = layout.x(bar.start_us), layout.x(bar.end_us)
    colour = pen.colour(pen.picture.rows[bar.row].unit)
    deaf = bar.meanwhile is Meanwhile.LOST
    return element(
        "rect",
        element("title", text_of(bar_sentence(pen.picture, bar))),
        x=left,
        y=layout.y(bar.row) - BAR / 2,
        width=max(1.5, right - left),
        height=BAR,
        fill=colour,
        fill_opacity=0.3 if deaf else 0.1,
        stroke=None if deaf else colour,
        stroke_opacity=None if deaf else 0.45,
        stroke_dasharray="4 3" if bar.meanwhile is None else None,
    )


def falls(pen: Pen) -> Iterator[str]:
    """Every message on its way, those to neighbours dashed; dots and rings at their ends."""
    for fall in sorted(pen.picture.falls, key=lambda one: one.for_it):
        yield _fall(pen, fall)
    for fall in pen.picture.falls:
        if fall.end.mark is not Mark.CROSS:
            last = fall.points[-1]
            x, y = pen.layout.x(last.us), pen.layout.y(last.row)
            colour = pen.colour(fall.unit) if fall.for_it else pen.palette.fault
            yield pen.mark(x, y, mark=fall.end.mark, colour=colour)


def _fall(pen: Pen, fall: Fall) -> str:
    layout = pen.layout
    return element(
        "polyline",
        element("title", text_of(fall_words(pen.picture, fall))),
        points=points((layout.x(point.us), layout.y(point.row)) for point in fall.points),
        data_message=fall.message + 1,
        fill="none",
        stroke=pen.colour(fall.unit),
        stroke_width=2.2,
        stroke_linejoin="round",
        stroke_dasharray=None if fall.for_it else "4 3",
    )


def crosses(pen: Pen) -> Iterator[str]:
    """The ends of messages that are not obeyed, with a word where there is room; cut-off rows."""
    for fall in pen.picture.failed:
        last = fall.points[-1]
        x, y = pen.layout.x(last.us), pen.layout.y(last.row)
        yield pen.mark(x, y, mark=fall.end.mark, colour=pen.palette.fault)
    for (x, y), says in _cross_words(pen):
        yield pen.text(x, y + 4, says, style=TINY_LOUD, colour=pen.palette.fault)
    for place, row in enumerate(pen.picture.rows):
        if row.silent:
            yield _silent_row(pen, place, row)


def _cross_words(pen: Pen) -> Iterator[tuple[tuple[float, float], str]]:
    """A word right of each cross, one for several that stand too close: `2 × lost`."""
    layout = pen.layout
    ends = sorted(pen.picture.failed, key=lambda one: (one.points[-1].row, one.points[-1].us))
    count = 0
    for fall, after in zip_longest(ends, ends[1:]):
        row, x = fall.points[-1].row, layout.x(fall.points[-1].us) + DOT + 4
        count += 1
        says = f"{count} × {end_word(fall)}" if count > 1 else end_word(fall)
        width = text_width(says, TINY.size, bold=True)
        alone = after is None or after.points[-1].row != row
        if alone or layout.x(after.points[-1].us) - DOT > x + width:
            most, y = layout.width - 4 - width, layout.y(row)
            yield (x, y) if x <= most else (most, y - 11), says
            count = 0
        elif end_word(after) != end_word(fall):
            count = 0


def _silent_row(pen: Pen, place: int, row: Row) -> str:
    """Why nothing arrives in a row, where it is cut off."""
    layout, palette = pen.layout, pen.palette
    says = f"✕ nothing arrives: {row.silent}" if row.is_cut else "nothing arrives"
    style = LOUD if row.is_cut else SMALL
    room = layout.end - layout.zero - 16
    shown = fitted(says, room, size=style.size, bold=style.bold)
    x = layout.zero + 12
    if row.is_cut:
        width = text_width(shown, style.size, bold=True)
        places = [x + (room - width) * part / 4 for part in range(5)]
        x = pen.clearest(layout.y(place), width, places=places)
    colour = palette.fault if row.is_cut else palette.quiet
    drawn = pen.text(x, layout.y(place) + 4, shown, style=style, colour=colour)
    return pen.titled(says, drawn)


def rights(pen: Pen) -> Iterator[str]:
    """When each unit is right, with the time where there is room; and what relays are put to."""
    layout, palette = pen.layout, pen.palette
    for place, row in enumerate(pen.picture.rows):
        y = layout.y(place)
        if row.kind is RowKind.LOOP:
            says = f"put {row.state} by a relay at the press"
            width = text_width(says, TINY.size)
            places = [
                layout.zero + 12 + (layout.end - layout.zero - width) * k / 8 for k in range(5)
            ]
            x = pen.clearest(y, width, places=places)
            yield pen.text(x, y + 4, says, style=TINY, colour=palette.quiet)
        if row.right_us is not None:
            yield pen.tick(layout.x(row.right_us), y)
            yield _time(pen, place, row.right_us)


def _time(pen: Pen, row: int, us: int) -> str:
    """The time beside a tick: right of it, or left where the paper ends or all is right there."""
    layout, says = pen.layout, shown_ms(us)
    x, width = layout.x(us), text_width(shown_ms(us), TINY.size)
    all_right = layout.x(pen.picture.right_us or 0)
    leftwards = x + 6 + width > layout.width - 4 or x + 3 < all_right < x + 9 + width
    side, anchor = (-6, "end") if leftwards else (6, None)
    start = x - 10 - width if leftwards else x + 1
    below = 17 if _is_taken(pen, row, start, start + 9 + width) else 4
    colour = pen.palette.proved
    return pen.text(x + side, layout.y(row) + below, says, style=TINY, colour=colour, anchor=anchor)


def _is_taken(pen: Pen, row: int, left: float, right: float) -> bool:
    """Whether some message ends in a row between two places, or a unit loads there."""
    layout = pen.layout
    ends = (fall.points[-1] for fall in pen.picture.falls)
    bars = (bar for bar in pen.picture.bars if bar.row == row)
    return any(end.row == row and left < layout.x(end.us) < right for end in ends) or any(
        layout.x(bar.start_us) < right and left < layout.x(bar.end_us) for bar in bars
    )


def numbers(pen: Pen) -> Iterator[str]:
    """The numbers of the messages where they leave, on two levels; what overlaps is left out."""
    free = [0.0, 0.0]
    for place, message in enumerate(pen.picture.messages):
        x, says = pen.layout.x(message.leaves_us), str(place + 1)
        half = text_width(says, TINY.size) / 2
        level = next((one for one in (0, 1) if x - half > free[one]), None)
        if level is not None:
            free[level] = x + half + 2
            colour = pen.colour(message.unit)
            y = HEAD - 6 - 11 * level
            yield pen.text(x, y, says, style=TINY, colour=colour, anchor="middle")
