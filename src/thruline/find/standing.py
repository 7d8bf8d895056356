"""Where a search stands: what to try, what to mend, or how it ended, in honest words."""

from dataclasses import dataclass

import numpy as np

from thruline.find.belief import Belief, believe
from thruline.find.checks import Check
from thruline.find.field import NOTHING, OTHER, Field, units_in
from thruline.find.likely import Floats, likelihood
from thruline.find.next_check import Plan, next_check, plan_for, seconds_left
from thruline.find.search import Did, Search, Step, Verdict
from thruline.find.suspect import Suspect
from thruline.find.trials import Trial

SURE_TO_MEND = 0.97
LIKELY_TO_MEND = 0.85
"""Enough when no further check tells more."""
SURE_IT_WORKS = 0.97
LIKELY_IT_WORKS = 0.9
"""Enough when no further check tells more."""
SURE_IT_IS_OTHER = 0.6
MOST_STEPS = 60
"""Steps after which it is better to look at the record with somebody else."""
UNLIKELY = 0.02
"""An answer that even the best explanation finds less likely than its observers err is doubted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A search as it stands.

    `check` is what to try next, `mend` the suspect whose mend is due. `seconds_left` is what
    checks are still expected to take. `doubtful` is the place in the search of an answer that
    contradicts the others, None where they agree.
    """

    search: Search
    belief: Belief
    verdict: Verdict
    check: Check | None = None
    mend: Suspect | None = None
    seconds_left: float = 0.0
    doubtful: int | None = None


def stand(field: Field, search: Search) -> Standing:
    """Where a search stands; it is played from its beginning."""
    belief = believe(field, search)
    doubtful = contradiction(belief, search)
    plan = plan_for(belief, search)
    verdict, check, mend = _judge(belief, search, plan)
    left = seconds_left(plan) if verdict is Verdict.CHECK else 0.0
    return Standing(
        search=search,
        belief=belief,
        verdict=verdict,
        check=check,
        mend=mend,
        seconds_left=left,
        doubtful=doubtful,
    )


def _judge(
    belief: Belief, search: Search, plan: Plan
) -> tuple[Verdict, Check | None, Suspect | None]:
    likely = belief.by_mend()
    key = next(iter(likely), "")
    if likely and likely[key] >= SURE_TO_MEND:
        return Verdict.MEND, None, suspect_for(belief, key)
    good = Verdict.WORKS if belief.mended else Verdict.NOTHING_FOUND
    if belief.nothing >= SURE_IT_WORKS and belief.answered:
        last = _last_look(belief, search) if len(search.steps) < MOST_STEPS else None
        return (good, None, None) if last is None else (Verdict.CHECK, last, None)
    if belief.other >= SURE_IT_IS_OTHER:
        return Verdict.OUTSIDE, None, None
    check = next_check(belief, search, plan) if len(search.steps) < MOST_STEPS else None
    if check is None and likely and likely[key] >= LIKELY_TO_MEND:
        return Verdict.MEND, None, suspect_for(belief, key)
    if check is None:
        return good if belief.nothing >= LIKELY_IT_WORKS else Verdict.UNSURE, None, None
    return Verdict.CHECK, check, None


def _last_look(belief: Belief, search: Search) -> Check | None:
    """After a mend: the glance along the whole board that nobody should leave without.

    A second fault may have hidden behind the first. A unit that was not right then is looked at
    until it was seen to be right; so is the farthest that shows the very thing that was mended,
    since a glance overlooks what a look would see.
    """
    if not belief.mended:
        return None
    left_out = {step.on for step in search.steps if step.did in (Did.CANNOT, Did.NOT_SURE)}
    checks = [one for one in belief.field.checks if one.id not in left_out]
    done = {step.on for step in belief.answered}
    whole = next((one for one in belief.field.checks if one.trial is Trial.GLANCE), None)
    if whole is not None and whole.id not in left_out | done:
        return whole
    wrong = _seen_wrong(belief)
    looks = [one for one in checks if one.trial is Trial.LOOK]
    again = next((one for one in looks if one.unit in wrong), None)
    if again is not None:
        return again
    telling = [one for one in looks if _shows(belief.field, one, belief.mended[-1])]
    farthest = telling[-1] if telling else None
    return farthest if farthest is not None and farthest.id not in done else None


def _shows(field: Field, check: Check, key: str) -> bool:
    """Whether a check shows that something is as it should not be that a mend is for."""
    column = field.outcomes[:, field.place_of[check.id]]
    rows = [row for row, mend in enumerate(field.mends) if mend == key]
    return any(column[row] != column[NOTHING] for row in rows)


def _seen_wrong(belief: Belief) -> set[str]:
    """The units that were not right when they were looked at last."""
    wrong: set[str] = set()
    for step in belief.answered:
        check = belief.field.check(step.on)
        if check.trial is Trial.GLANCE:
            wrong = wrong - set(check.units) | units_in(step.answer)
        elif check.trial is Trial.LOOK:
            wrong = wrong - {check.unit} | ({check.unit} if step.answer != check.good else set())
    return wrong


def suspect_for(belief: Belief, key: str) -> Suspect:
    """The likeliest suspect that a mend is for."""
    return next(one for one, _ in belief.ranked() if one.mend_key == key)


def confirming(field: Field, suspect: Suspect) -> Check | None:
    """The quickest check that the suspect spoils, so that it shows whether the mend did it."""
    row = field.suspects.index(suspect) + len(field.mends) - len(field.suspects)
    spoiled = np.flatnonzero(field.outcomes[row] != field.outcomes[NOTHING])
    wanted = (Trial.REPEAT,) if suspect.sometimes else (Trial.LOOK, Trial.GLANCE)
    checks = [field.checks[place] for place in spoiled.tolist()]
    pressed = [one for one in checks if one.trial in wanted]
    return min(pressed or checks, key=lambda one: one.seconds, default=None)


def contradiction(belief: Belief, search: Search) -> int | None:
    """The place of the least trustworthy answer where the answers contradict each other.

    They do when the best explanation of all makes some answer as unlikely as a mistake. Either that
    answer is one, or those are that the best explanation of that answer makes so.
    """
    found = [
        likelihood(belief.field, belief.field.check(step.on), step.answer)
        for step in belief.answered
    ]
    odd = _odd(belief, found, _best_rows(belief, np.ones(belief.weights.size)))
    if not odd:
        return None
    for one in tuple(odd):
        explains = (found[one] >= found[one].max() / 2).astype(np.float64)
        odd |= _odd(belief, found, _best_rows(belief, explains))
    least = min(odd, key=lambda one: belief.field.check(belief.answered[one].on).sure)
    return _place(search, belief.answered[least])


def _best_rows(belief: Belief, among: Floats) -> list[int]:
    """The row that explains best, or the two of a pair."""
    weights = belief.weights * among
    weights[OTHER] = 0.0
    pairs = belief.pair_weights * np.array(
        [max(among[one], among[other]) for one, other in belief.pairs]
    )
    if pairs.max(initial=0.0) > weights.max():
        return list(belief.pairs[int(pairs.argmax())])
    return [int(weights.argmax())]


def _odd(belief: Belief, found: list[Floats], rows: list[int]) -> set[int]:
    """The answers that an explanation makes as unlikely as a mistake, by place."""
    odd = set()
    for place, (step, likely) in enumerate(zip(belief.answered, found, strict=True)):
        wrong = 1 - belief.field.check(step.on).sure + UNLIKELY
        if max(likely[one] for one in rows) < wrong * likely.max():
            odd.add(place)
    return odd


def _place(search: Search, step: Step) -> int:
    places = [place for place, one in enumerate(search.steps) if one == step]
    return places[-1]


def seconds_spent(field: Field, search: Search) -> float:
    """What the checks of a search have cost; one that could not be done costs nothing."""
    paid = (Did.ANSWERED, Did.NOT_SURE)
    return sum(field.check(one.on).seconds for one in search.steps if one.did in paid)
