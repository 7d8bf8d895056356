"""What was really sent, held against the plan: a capture, or press by press as it happens."""

from collections.abc import Iterator, Sequence

from thruline.app.frame import Json, answer
from thruline.audit.align import align
from thruline.audit.capture import Capture
from thruline.audit.explain import Cause
from thruline.audit.fault import Fault
from thruline.audit.follow import Aligned
from thruline.audit.meant import Meant, default_taps, meant_by
from thruline.audit.verdict import Verdict, verdict
from thruline.audit.words import fault_says, look_at, units_of, words_for_keys
from thruline.base.errors import CannotUse
from thruline.proof.case import Case
from thruline.rig.whole import Rig

NAMED_LEAST = 0.01
"""Answers with smaller odds are not worth a row."""
MOST_NAMED = 4
"""Answers that are told."""
MOST_DIFFERENCES = 4
"""Differences that are told for each press; the rest is counted."""


def plan_for(
    case: Case, lines: Sequence[str], *, at: Sequence[str] = (), before: Case | None = None
) -> Meant:
    """The plan for the lines of a capture.

    `at` are the sockets that they were listened to at, in their order; else their names say so;
    else it was the controller's first output that is plugged in. Raises CannotUse when that makes
    no sense.
    """
    if at:
        if len(at) != len(lines):
            raise CannotUse(f"the capture has {len(lines)} lines, and --at names {len(at)}")
        return meant_by(case, at, before=before)
    sockets = [name for name in lines if _is_socket(case.rig, name)]
    if sockets:
        return meant_by(case, sockets, before=before)
    if len(lines) > 1:
        raise CannotUse(
            f"the capture has {len(lines)} lines; say with --at which socket each was listened to "
            "at, such as --at feet.midi-out-1 --at feet.midi-out-2"
        )
    return meant_by(case, default_taps(case), before=before)


def _is_socket(rig: Rig, name: str) -> bool:
    unit, dot, socket = name.partition(".")
    return bool(dot) and unit in rig.units and socket in rig.units[unit].chart.sockets


def audit(capture: Capture, meant: Meant) -> Verdict:
    """The answer about a capture. Raises CannotUse when nothing in it can be placed."""
    return verdict_on(align(capture, meant), meant)


def verdict_on(aligned: Aligned, meant: Meant) -> Verdict:
    """As `audit`, where every press has its place already."""
    if not aligned.pressed.any():
        raise CannotUse(
            "nothing was heard that could be a press of a preset: is the right port listened to, "
            "and the right cable plugged in?"
        )
    return verdict(meant, aligned)


def audit_rows(found: Verdict, meant: Meant, rig: Rig) -> Iterator[str]:
    """The report: what is unexplained, the likeliest cause, and every press."""
    yield from sum_rows(found)
    for says in found.unexplained:
        yield f"UNEXPLAINED  {says}"
    for place, cause in enumerate(told_causes(found)):
        yield from _cause_rows(cause, meant, rig, likeliest=place == 0)
    yield ""
    for tick in found.ticks:
        title = meant.steps[tick.step].title
        if not tick.done:
            yield f"  -     {title}: not pressed"
        elif tick.is_right:
            yield f"  ok    {title}"
        else:
            yield f"  DIFF  {title}"
            yield from _difference_rows("missing", tick.missing, meant, rig)
            yield from _difference_rows("besides", tick.more, meant, rig)


def sum_rows(found: Verdict) -> Iterator[str]:
    """How much of what was pressed is as it was meant, and what the line lost."""
    done = [one for one in found.ticks if one.done]
    right = sum(1 for one in done if one.is_right)
    skipped = len(found.ticks) - len(done)
    rest = f"; {skipped} were not pressed" if skipped else ""
    yield f"{right} of {len(done)} presses are as they were meant{rest}"
    if found.malformed:
        yield f"{found.malformed} pieces were no messages: a bad contact, or a ground loop"
    if found.lost:
        share = 100 * found.lost / max(1, found.predicted)
        yield f"{found.lost} of {found.predicted} messages did not come ({share:.1f} %)"


def told_causes(found: Verdict) -> list[Cause]:
    """The answers that are worth a row, the likeliest first."""
    return [one for one in found.causes if one.odds >= NAMED_LEAST][:MOST_NAMED]


def cause_says(faults: Sequence[Fault], meant: Meant, rig: Rig) -> str:
    """An answer in a sentence."""
    if not faults:
        return "no mistake; what differs, if anything, is chance"
    return ", and ".join(fault_says(one, meant, rig) for one in faults)


def _cause_rows(cause: Cause, meant: Meant, rig: Rig, *, likeliest: bool) -> Iterator[str]:
    head = "LIKELIEST" if likeliest else "or"
    yield f"{head:9}  {cause_says(cause.faults, meant, rig)}  ({odds_says(cause)})"
    for one in cause.faults:
        yield f"           look at: {look_at(one, meant, rig)}"
    for other in cause.same[:MOST_NAMED]:
        yield f"           or, with just the same effect: {cause_says(other, meant, rig)}"


def odds_says(cause: Cause) -> str:
    """How likely an answer is."""
    return "over 99 %" if cause.odds > 0.99 else f"{100 * cause.odds:.0f} %"


def _difference_rows(head: str, keys: Sequence[int], meant: Meant, rig: Rig) -> Iterator[str]:
    for says in differences(keys, meant, rig):
        yield f"          {head}: {says}"


def differences(keys: Sequence[int], meant: Meant, rig: Rig) -> Iterator[str]:
    """The first few messages that differ, and how many more do."""
    yield from map(words_for_keys(meant, rig), keys[:MOST_DIFFERENCES])
    if len(keys) > MOST_DIFFERENCES:
        yield f"{len(keys) - MOST_DIFFERENCES} more"


def audit_json(found: Verdict, meant: Meant, rig: Rig) -> Json:
    """The answer for other programs."""
    says = words_for_keys(meant, rig)
    return answer(
        "audit",
        rig=rig.name,
        clean=found.is_clean,
        unexplained=list(found.unexplained),
        causes=[
            {
                "odds": round(one.odds, 4),
                "faults": [
                    {
                        "family": fault.family.value,
                        "on": list(units_of(fault, meant)),
                        "says": fault_says(fault, meant, rig),
                        "look_at": look_at(fault, meant, rig),
                    }
                    for fault in one.faults
                ],
                "same_effect": [
                    [fault_says(fault, meant, rig) for fault in other] for other in one.same
                ],
            }
            for one in found.causes
            if one.odds >= NAMED_LEAST
        ],
        presses=[
            {
                "title": meant.steps[one.step].title,
                "pressed": one.done,
                "right": one.is_right,
                "missing": [*map(says, one.missing)],
                "besides": [*map(says, one.more)],
            }
            for one in found.ticks
        ],
        lost=found.lost,
        planned=found.predicted,
        strays=found.strays,
        malformed=found.malformed,
    )
