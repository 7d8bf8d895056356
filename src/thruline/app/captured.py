"""One press of a capture in the timing chart: computed pale, captured dark, and the differences."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from thruline.app.frame import Json
from thruline.app.trace import ground_of, trace
from thruline.audit.align import align
from thruline.audit.capture import Capture, Caught, caught
from thruline.audit.follow import taps_of
from thruline.audit.meant import Meant, line_at
from thruline.base.errors import CannotUse
from thruline.base.measures import shown_ms
from thruline.midi import specs
from thruline.midi.decode import decode
from thruline.midi.words import in_hex, in_words
from thruline.papers.colours import THEMED
from thruline.papers.timing_captured import LEGEND
from thruline.papers.timing_svg import timing_svg
from thruline.proof.case import Case
from thruline.timing.captured import Captured, Heard, Pair, Tap, captured_of
from thruline.timing.trail import play_sending

WIDTH = 820
LATE_US = 1_000
"""From here on a message counts as late or early: listening itself is off by nearly as much."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """One press, computed and captured: in a sentence, as SVG markup, and message by message."""

    title: str
    says: str
    svg: str
    rows: tuple[Json, ...]


def captured_chart(
    case: Case, capture: Capture, meant: Meant, *, preset: int, name: str = "captured"
) -> Drawn:
    """One press of a capture over its timing chart; `name` tells several on one page apart.

    Raises CannotUse when it was not pressed.
    """
    found = trace(case, preset)
    heard = heard_at(capture, meant, preset)
    if not heard:
        raise CannotUse(f"nothing was heard of preset {preset}")
    controller = case.rig.controller
    if controller is None:  # `trace` has refused that already
        raise CannotUse("this rig has no controller")
    trails = play_sending(found.sending, ground_of(case, controller))
    rows = {row.unit: place for place, row in enumerate(found.picture.rows)}
    taps = [
        Tap(line_at(case.rig, case.board.roads, one), rows.get(one.partition(".")[0], 0))
        for one in meant.taps
    ]
    shown = captured_of(found.picture, trails, taps=taps, heard=heard)
    picture = replace(found.picture, title=f"{found.picture.title}, as captured")
    says: dict[int | None, str] = {one.number - 1: one.meaning.says for one in found.messages}
    return Drawn(
        title=found.preset.title,
        says=f"{_sum(shown)} {LEGEND}",
        svg=timing_svg(picture, palette=THEMED, name=name, width=WIDTH, captured=shown),
        rows=tuple(_row(one, says.get(one.message)) for one in shown.pairs),
    )


def captured_view(case: Case, capture: Capture, meant: Meant, *, preset: int) -> Json:
    """What a page shows of one press. Raises CannotUse when it was not pressed."""
    drawn = captured_chart(case, capture, meant, preset=preset)
    return {"title": drawn.title, "says": drawn.says, "svg": drawn.svg, "rows": list(drawn.rows)}


def heard_at(capture: Capture, meant: Meant, preset: int) -> tuple[Heard, ...]:
    """What was heard when a preset was pressed, the last time if several."""
    step = next((place for place, one in enumerate(meant.steps) if one.preset == preset), None)
    presses = sorted(align(capture, meant).presses, key=lambda one: one.at_us)
    place = max((at for at, one in enumerate(presses) if one.step == step), default=None)
    if step is None or place is None:
        return ()
    begin_us = presses[place].at_us
    after = presses[place + 1 :]
    end_us = after[0].at_us if after else None
    return tuple(_between(capture, meant, begin_us=begin_us, end_us=end_us))


def _between(
    capture: Capture, meant: Meant, *, begin_us: int, end_us: int | None
) -> Iterator[Heard]:
    taps = taps_of(capture.lines, meant)
    for one in caught(capture):
        if not isinstance(one, Caught) or one.message is None or one.line not in taps:
            continue
        is_in = begin_us <= one.at_us and (end_us is None or one.at_us < end_us)
        if is_in and one.raw[0] < specs.CLOCK.status:
            yield Heard(one.at_us, taps[one.line], one.raw)


def _sum(shown: Captured) -> str:
    """The comparison in one sentence."""
    offs = [abs(one.off_us) for one in shown.pairs if one.off_us is not None]
    parts = [f"{len(offs)} of {len(offs) + len(shown.missing)} messages came"]
    if offs:
        parts.append(f"the farthest {shown_ms(max(offs))} from where it was computed")
    if shown.strays:
        parts.append(f"{len(shown.strays)} came that are not planned")
    return ", ".join(parts) + "."


def _row(pair: Pair, says: str | None) -> Json:
    off_us = pair.off_us
    off = "did not come" if pair.heard_us is None else "not planned"
    if off_us is not None:
        off = (
            f"{shown_ms(abs(off_us))} {'late' if off_us > 0 else 'early'}" if off_us else "on time"
        )
    return {
        "says": says or in_words(decode(pair.data)),
        "bytes": in_hex(pair.data),
        "computed": "" if pair.computed_us is None else shown_ms(pair.computed_us),
        "captured": "" if pair.heard_us is None else shown_ms(max(0, pair.heard_us)),
        "off": off,
        "differs": off_us is None or abs(off_us) >= LATE_US,
    }
