"""A trace for other programs: the same facts as the text and the drawing."""

from thruline.app.frame import Json
from thruline.app.trace import Trace, Traced
from thruline.base.measures import BYTE_US
from thruline.papers.timing_words import headline
from thruline.timing.falls import Fall
from thruline.timing.picture import Bar
from thruline.timing.rows import Row
from thruline.timing.trail import Leg


def trace_json(found: Trace) -> Json:
    """A whole trace. Times are whole microseconds after the press."""
    before = found.came_from
    return {
        "rig": found.rig,
        "preset": {"number": found.preset.number, "name": found.preset.name},
        "from": {"number": before.number, "name": before.name} if before else None,
        "as_stored": found.is_stored,
        "says": headline(found.picture),
        "right_us": found.right_us,
        "cannot_be_faster": found.cannot_be_faster,
        "all_obeyed": found.is_obeyed,
        "all_sent": not found.not_sent,
        "not_sent": [
            {"unit": one.unit, "says": one.says, "written": one.written, "why": one.why}
            for one in found.not_sent
        ],
        "best": {
            "right_us": found.best.right_us,
            "least_us": found.best.least_us,
            "proof": found.best.proof.value,
            "solver_missing": found.best.solver_missing,
        },
        "baselines": [
            {"says": one.says, "right_us": one.right_us, "lost": one.lost}
            for one in found.baselines
        ],
        "messages": [_message(one) for one in found.messages],
        "units": [_row(row) for row in found.picture.rows],
        "loading": [_bar(found, bar) for bar in found.picture.bars],
        "leftovers": [
            {"unit": one.unit, "name": one.name, "says": one.says} for one in found.arriving
        ],
    }


def _message(one: Traced) -> Json:
    told = one.meaning
    return {
        "number": one.number,
        "bytes": one.item.data.hex(" ").upper(),
        "raw": told.raw,
        "says": told.says,
        "unit": one.item.unit,
        "written": told.written,
        "wire": told.wire,
        "shown": told.shown,
        "as_wanted": told.as_wanted,
        "entry": {
            "enter": one.entry.enter,
            "channel": one.entry.channel,
            "number": one.entry.number,
            "value": one.entry.value,
            "output": one.entry.output or None,
        },
        "pause_us": one.item.pause_us,
        "leaves_by": list(one.over),
        "leaves_us": one.leaves_us,
        "routes": [_fall(fall) for fall in one.falls],
    }


def _fall(fall: Fall) -> Json:
    return {
        "unit": fall.unit,
        "meant_for_it": fall.for_it,
        "fate": fall.end.fate.value if fall.end.fate else None,
        "obeyed": fall.end.mark.value == "dot",
        "says": fall.end.says,
        "arrives_us": fall.points[-1].us,
        "points": [{"row": point.row, "us": point.us} for point in fall.points],
        "hops": [leg_json(leg) for leg in fall.legs],
    }


def leg_json(leg: Leg) -> Json:
    """A message on one link, with the moment at which each byte begins and ends there."""
    return {
        "from": str(leg.link.start),
        "to": str(leg.link.stop),
        "queued_us": leg.queued_us,
        "start_us": leg.start_us,
        "end_us": leg.end_us,
        "status_left_out": leg.status_left_out,
        "bytes_us": [[end - BYTE_US, end] for end in leg.byte_end_us],
    }


def _row(row: Row) -> Json:
    return {
        "unit": row.unit,
        "name": row.name,
        "kind": row.kind.value,
        "about": row.about,
        "above": row.above,
        "lane": row.lane,
        "hears": not row.silent if row.kind.value != "loop" else None,
        "silent_because": row.silent or None,
        "right_us": row.right_us,
        "loop": row.state or None,
    }


def _bar(found: Trace, bar: Bar) -> Json:
    return {
        "unit": found.picture.rows[bar.row].unit,
        "start_us": bar.start_us,
        "end_us": bar.end_us,
        "controls_meanwhile": bar.meanwhile.value if bar.meanwhile else None,
    }
