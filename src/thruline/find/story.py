"""Why we think so, in sentences: the suspects, what an answer ruled out, how it ended."""

from collections.abc import Iterator
from dataclasses import replace

from thruline.find.belief import Belief, believe
from thruline.find.checks import Check
from thruline.find.field import Field, units_in
from thruline.find.search import Did, Search, Step, Verdict
from thruline.find.standing import Standing, contradiction, seconds_spent
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


def understood(field: Field, search: Search) -> tuple[str, ...]:
    """What was made of each symptom that somebody told in words, each answer numbered."""
    found: dict[str, list[str]] = {}
    for number, step in enumerate(search.steps, 1):
        if step.said and step.did is Did.ANSWERED:
            check = field.check(step.on)
            told = f"{number}. {check.asks} – {answer_words(field, check, step.answer)}"
            found.setdefault(step.said, []).append(told)
    return tuple(f"“{said}” is understood as: {'; '.join(one)}" for said, one in found.items())


def asked_again(standing: Standing) -> str | None:
    """Why something is asked that was answered before; None where it was not."""
    check = standing.check
    if check is None:
        return None
    steps = standing.search.steps
    before = [n for n, one in enumerate(steps) if one.did is Did.ANSWERED and one.on == check.id]
    if not before:
        return None
    last, doubtful = before[-1], standing.doubtful
    said = (
        f"answer {last + 1} was “{answer_words(standing.belief.field, check, steps[last].answer)}”"
    )
    if any(one.did is Did.MENDED for one in steps[last:]):
        return f"asked again, now that something was mended: {said}"
    if doubtful is not None and steps[doubtful].on == check.id:
        return f"asked again, since the answers contradict each other: {said}"
    if _may_come_and_go(standing, check):
        return f"asked again, since what is wrong may come and go: {said}"
    wrong = round(1 / max(1 - check.sure, 0.01))
    return f"asked again, to be surer: about one such answer in {wrong} is wrong; {said}"


COMES_AND_GOES = 0.2
"""How likely what comes and goes must be to be the reason for looking again."""


def _may_come_and_go(standing: Standing, check: Check) -> bool:
    belief, field = standing.belief, standing.belief.field
    column = field.outcomes[:, field.place_of[check.id]]
    rows = field.comes_and_goes & (column != column[0])
    return float(belief.weights[rows].sum()) >= COMES_AND_GOES


def doubt(standing: Standing, *, in_full: bool = False) -> str | None:
    """The answer to repeat, where answers contradict each other.

    In full when it is new, in short as long as it is the same, unless it is wanted `in_full`.
    """
    if standing.doubtful is None:
        return None
    field, step = standing.belief.field, standing.search.steps[standing.doubtful]
    if not in_full and _was_doubted(standing):
        return f"answer {standing.doubtful + 1} still contradicts the others; try it again"
    check = field.check(step.on)
    return (
        "these answers contradict each other; the least trustworthy is number "
        f"{standing.doubtful + 1}: {check.asks} – {answer_words(field, check, step.answer)}. "
        "Try that again"
    )


def _was_doubted(standing: Standing) -> bool:
    """Whether the same answer was the one to repeat a step before."""
    earlier = standing.search.taken_back()
    if standing.doubtful == len(earlier.steps):
        return False
    return contradiction(believe(standing.belief.field, earlier), earlier) == standing.doubtful


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
