"""The timing chart of one preset for a page: the drawing, and every message to be read."""

from collections.abc import Iterator

from thruline.app.frame import Json
from thruline.app.mend import State
from thruline.app.trace import Trace, Traced, trace
from thruline.app.trace_paper import heading
from thruline.base.measures import shown_ms
from thruline.compose.jobs import Effort
from thruline.papers.colours import THEMED
from thruline.papers.timing_svg import timing_svg
from thruline.papers.timing_words import fall_words
from thruline.rig.preset import Preset

WIDTH = 820
"""How wide the drawing is, in pixels: what a page leaves between its sides."""


def line_view(
    state: State, number: int | None = None, *, came_from: int | None = None, settled: bool = False
) -> Json:
    """What the Line page shows. Raises CannotUse when there is no such preset.

    At first in the order that the proof has looked for already; when `settled`, in the one that is
    looked for as hard as on paper, which can take a second on a large board.

    A rig without presets or without a controller gives a page that says what is missing.
    """
    rig = state.opened.rig
    presets = [_called(one) for one in rig.presets]
    lacks = ""
    if rig.controller is None:
        lacks = "This rig has no foot controller: nothing sends yet. Choose one on the Units page."
    elif not presets:
        lacks = "There are no presets yet. Add one on the Presets page."
    if lacks:
        return {"presets": presets, "lacks": lacks}
    chosen = rig.presets[0].number if number is None else number
    effort = Effort.PROVE if settled else Effort.FULL
    found = trace(state.case, chosen, came_from=came_from, effort=effort)
    return {
        "presets": presets,
        "lacks": "",
        "preset": _called(found.preset),
        "from": _called(found.came_from) if found.came_from else None,
        "heading": heading(found),
        "obeyed": found.is_obeyed,
        "svg": timing_svg(found.picture, palette=THEMED, name="line", width=WIDTH),
        "messages": [_message(found, one) for one in found.messages],
        "compared": list(_compared(found)),
        "arriving": [
            {"unit": one.unit, "name": one.name, "says": one.says} for one in found.arriving
        ],
    }


def _called(preset: Preset) -> Json:
    return {"number": preset.number, "name": preset.name}


def _message(found: Trace, one: Traced) -> Json:
    """A message in words, and byte by byte on every hop of its way."""
    return {
        "number": one.number,
        "unit": one.item.unit,
        "bytes": one.item.data.hex(" ").upper(),
        "says": one.meaning.says,
        "written": one.meaning.written,
        "wire": one.meaning.wire,
        "shown": one.meaning.shown,
        "as_wanted": one.meaning.as_wanted,
        "leaves": shown_ms(one.leaves_us),
        "obeyed": all(fall.end.mark.value != "cross" for fall in one.falls if fall.for_it),
        "ways": [
            {
                "says": fall_words(found.picture, fall),
                "hops": [
                    {
                        "from": str(leg.link.start),
                        "to": str(leg.link.stop),
                        "starts": shown_ms(leg.start_us),
                        "ends": shown_ms(leg.end_us),
                        "running": leg.status_left_out,
                    }
                    for leg in fall.legs
                ],
            }
            for fall in one.falls
        ],
    }


def _compared(found: Trace) -> Iterator[Json]:
    """What other orders would take, and what no order can beat."""
    yield {"says": "these messages", "right": shown_ms(found.right_us), "lost": 0}
    for one in found.baselines:
        yield {"says": one.says, "right": shown_ms(one.right_us), "lost": one.lost}
    least = found.best.least_us
    if least is not None:
        proved = " (proved: cannot be faster)" if found.cannot_be_faster else ""
        yield {"says": f"no order can be below{proved}", "right": shown_ms(least), "lost": 0}
