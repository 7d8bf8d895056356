"""What was learned, for people and for other programs."""

from collections.abc import Iterator

from thruline.app.frame import Json, answer, typed_in
from thruline.app.learn import LearnedRig
from thruline.learn.sweeps import LearnedMove
from thruline.papers.proof_words import summary
from thruline.proof.finding import Severity
from thruline.rig.spans import spans

MOST_TOLD = 12
"""So many unknown things are told; the document holds them all."""


def learn_rows(made: LearnedRig, *, file: str) -> Iterator[str]:
    """What was learned, in rows of text."""
    learned, account = made.learned, made.learned.account
    yield f"WRITTEN  {file}"
    for chart in sorted(made.charts):
        yield f"         charts/{chart}.chart.toml, begun from what was heard"
    presses = sum(one.presses for one in learned.presets)
    yield (
        f"{len(learned.presets)} presets from {presses} presses, {len(learned.sweeps)} sweeps, "
        f"{len(made.channels)} channels"
    )
    yield (
        f"{account.heard - account.left} of {account.heard} messages have a place "
        f"({100 * account.share:.1f} %); {account.malformed} broken pieces"
    )
    if learned.clock_bpm is not None:
        yield f"it sends a clock, about {learned.clock_bpm} beats a minute"
    yield ""
    yield from (f"  {one.says}" for one in made.channels)
    for sweep in learned.sweeps:
        yield f"  sweep {sweep.name}, on presets {spans(sweep.presets) or 'that nobody knows'}"
    yield ""
    for one in made.unknown[:MOST_TOLD]:
        where = f"{one.where}: " if one.where is not None else ""
        yield f"UNKNOWN  {where}{one.says}"
    if len(made.unknown) > MOST_TOLD:
        rest = len(made.unknown) - MOST_TOLD
        yield f"UNKNOWN  and {rest} more; each stands as a comment in the document"
    yield ""
    yield f"proof: {summary(made.proof)}"
    yield f"next: {typed_in('prove', file)}"


def learn_json(made: LearnedRig, *, file: str | None) -> Json:
    """What was learned, for other programs."""
    learned, account = made.learned, made.learned.account
    return answer(
        "learn",
        rig=made.opened.rig.name,
        written=file,
        charts=[f"charts/{one}.chart.toml" for one in sorted(made.charts)],
        presets=[
            {
                "number": one.number,
                "presses": one.presses,
                "messages": len(one.agreed),
                "sure": sum(each.is_sure for each in one.agreed),
            }
            for one in learned.presets
        ],
        sweeps=[
            {
                "name": one.name,
                "presets": list(one.presets),
                "moves": [_move_json(move) for move in one.moves],
            }
            for one in learned.sweeps
        ],
        channels=[
            {"channel": one.channel, "programs": list(one.programs), "controls": list(one.controls)}
            for one in made.channels
        ],
        own_us=learned.own_us,
        running_status=learned.running_status,
        clock_bpm=learned.clock_bpm,
        heard=account.heard,
        placed=account.heard - account.left,
        malformed=account.malformed,
        unknown=[
            {"address": None if one.where is None else str(one.where), "says": one.says}
            for one in made.unknown
        ],
        counts={severity.value: made.proof.count(severity) for severity in Severity},
    )


def _move_json(move: LearnedMove) -> Json:
    return {
        "channel": move.moved.channel + 1,
        "number": move.moved.code & 0x3FFF,
        "heel": move.heel,
        "toe": move.toe,
        "curve": move.fitted.curve.name,
        "sure": move.fitted.is_sure,
    }
