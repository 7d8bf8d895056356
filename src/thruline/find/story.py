"""Why we think so, in sentences: the suspects, what an answer ruled out, how it ended."""

from collections.abc import Iterator
from dataclasses import replace

from thruline.find.belief import Belief, believe
from thruline.find.checks import Check
from thruline.find.field import Field, units_in
from thruline.find.search import Did, Search, Step
from thruline.find.standing import Standing, Verdict, seconds_spent
from thruline.find.suspect import Suspect
from thruline.find.trials import Trial

FALLEN = 0.25
"""A suspect is ruled out when it falls below this share of what it was."""
WORTH_TELLING = 0.004
"""Suspects less likely than that are not told of when they fall."""
SAID = 0.02
"""What is less likely is not named among what cannot be told apart."""
MOST_TOLD = 3


def percent(share: float) -> str:
    """A probability as people read it."""
    if share >= 0.995:
        return "over 99 %"
    return f"{share * 100:.0f} %" if share >= 0.01 else "under 1 %"


def minutes(seconds: float) -> str:
    """A time as people read it."""
    if seconds < 90:
        return f"{max(5, round(seconds / 5) * 5)} seconds"
    return f"{seconds / 60:.0f} minutes" if seconds >= 150 else "2 minutes"


def answer_words(field: Field, check: Check, answer: str) -> str:
    """An answer in words."""
    if check.trial is Trial.GLANCE:
        wrong = units_in(answer)
        names = [field.meant.rig.units[unit].name for unit in check.units if unit in wrong]
        return f"not right: {', '.join(names)}" if names else "everything is right"
    return check.answers.get(answer, answer)


def ruled_out(field: Field, search: Search) -> tuple[str, ...]:
    """What the last answer made unlikely, and why."""
    if not search.steps or search.steps[-1].did is not Did.ANSWERED:
        return ()
    last = search.steps[-1]
    fallen = _fallen(believe(field, search.taken_back()), believe(field, search))
    seen = answer_words(field, field.check(last.on), last.answer)
    told = [f"{one} – then it would not be “{seen}”" for one in fallen[:MOST_TOLD]]
    more = len(fallen) - MOST_TOLD
    return (*told, f"and {more} more") if more > 0 else tuple(told)


def ruled_out_by(field: Field, search: Search) -> Iterator[tuple[str, ...]]:
    """What each step of a search made unlikely, the likeliest before first.

    Nothing for steps that are no answers.
    """
    before = believe(field, replace(search, steps=()))
    for place, step in enumerate(search.steps, 1):
        after = believe(field, replace(search, steps=search.steps[:place]))
        yield _fallen(before, after) if step.did is Did.ANSWERED else ()
        before = after


def _fallen(earlier: Belief, later: Belief) -> tuple[str, ...]:
    """What has become unlikely, in words; what it was before counts."""
    before, after = _by_id(earlier), _by_id(later)
    suspects = {one.id: one for one in later.field.suspects}
    fallen = [
        (before[name] - share, suspects[name].says)
        for name, share in after.items()
        if before[name] >= WORTH_TELLING and share < FALLEN * before[name]
    ]
    fallen.sort(key=lambda one: -one[0])
    return tuple(says for _, says in fallen)


def _by_id(belief: Belief) -> dict[str, float]:
    return {one.id: share for one, share in belief.ranked()}


def because(standing: Standing, suspect: Suspect) -> tuple[str, ...]:
    """What was seen that speaks for a suspect."""
    field = standing.belief.field
    row = field.suspects.index(suspect) + len(field.mends) - len(field.suspects)
    told = []
    for step in standing.belief.answered:
        check = field.check(step.on)
        place = field.place_of[check.id]
        if field.outcomes[row, place] != field.outcomes[0, place]:
            told.append(f"{check.asks} – {answer_words(field, check, step.answer)}")
    return tuple(told)


def conclusion(standing: Standing) -> str:
    """What the search says now, as one sentence or two."""
    belief = standing.belief
    match standing.verdict:
        case Verdict.CHECK:
            return f"about {minutes(standing.seconds_left)} of checks are still expected"
        case Verdict.MEND:
            suspect = standing.mend
            likely = next(iter(belief.by_mend().values()), 0.0)
            says = "" if suspect is None else suspect.says
            return f"{percent(likely)} sure: {says}"
        case Verdict.WORKS:
            return "it works: what was mended was it, and the checks since then agree"
        case Verdict.NOTHING_FOUND:
            return "no fault found: everything that was tried is as planned"
        case Verdict.OUTSIDE:
            return (
                "nothing known explains what was seen; the record below is for a colleague, or "
                "for the maker of the unit"
            )
        case Verdict.UNSURE:
            return f"unsure: no further check tells these apart: {_rivals(standing)}"


def _rivals(standing: Standing) -> str:
    top = standing.belief.ranked()[:MOST_TOLD]
    told = [f"{one.says} ({percent(share)})" for one, share in top if share >= SAID]
    if standing.belief.nothing >= SAID:
        told.append(f"nothing is wrong ({percent(standing.belief.nothing)})")
    return "; ".join(told) or "too much was left open"


def doubt(standing: Standing) -> str | None:
    """The answer to repeat, where answers contradict each other."""
    if standing.doubtful is None:
        return None
    field, step = standing.belief.field, standing.search.steps[standing.doubtful]
    check = field.check(step.on)
    return (
        "these answers contradict each other; the least trustworthy is number "
        f"{standing.doubtful + 1}: {check.asks} – {answer_words(field, check, step.answer)}. "
        "Try that again"
    )


def record(field: Field, search: Search) -> Iterator[str]:
    """The whole search, a row a step, for whoever goes on with it."""
    for number, step in enumerate(search.steps, 1):
        yield f"{number}. {_told(field, step)}"
    yield f"time for these checks: {minutes(seconds_spent(field, search))}"


def _told(field: Field, step: Step) -> str:
    if step.did is Did.MENDED:
        done = next((one for one in field.suspects if one.mend_key == step.on), None)
        return f"mended: {done.mend if done is not None else step.on}"
    check = field.check(step.on)
    match step.did:
        case Did.CANNOT:
            return f"{check.asks} – cannot be done here"
        case Did.NOT_SURE:
            return f"{check.asks} – not sure"
        case _:
            return f"{check.asks} – {answer_words(field, check, step.answer)}"
