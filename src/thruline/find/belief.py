"""Suspects weighed after what was seen: single ones, pairs, nothing wrong, something else."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from thruline.find.checks import Check
from thruline.find.field import FIRST, NOTHING, OTHER, PAIRS, Field, units_in
from thruline.find.likely import Floats, by_answer, likelihood
from thruline.find.predict import observed
from thruline.find.search import Did, Search, Step
from thruline.find.suspect import Suspect
from thruline.find.trials import Trial

MOST_IN_PAIRS = 80
"""Suspects that pairs are made of: those which alone explain some answer best."""
MOST_PAIRS = 60
AGAIN = 0.5
"""What a repeated answer counts against the one before: the same eyes make the same mistake."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Belief:
    """How likely each row of a field is, and each pair of suspects; all sums to 1.

    `pairs` are two rows each. `fit` is how well the best of them explains each answer since the
    last mend, 0 to 1.
    """

    field: Field
    weights: Floats
    pairs: tuple[tuple[int, int], ...]
    pair_weights: Floats
    answered: tuple[Step, ...]
    mended: tuple[str, ...]

    @property
    def nothing(self) -> float:
        """How likely nothing is wrong (any more)."""
        return float(self.weights[NOTHING])

    @property
    def other(self) -> float:
        """How likely something is wrong that is not among the suspects."""
        return float(self.weights[OTHER])

    @property
    def both(self) -> float:
        """How likely two things are wrong at once."""
        return float(self.pair_weights.sum())

    def by_mend(self) -> dict[str, float]:
        """How likely each mend is needed, the likeliest first."""
        found: dict[str, float] = {}
        for row in range(FIRST, self.weights.size):
            key = self.field.mends[row]
            found[key] = found.get(key, 0.0) + float(self.weights[row])
        for pair, weight in zip(self.pairs, self.pair_weights, strict=True):
            for key in {self.field.mends[row] for row in pair}:
                found[key] = found.get(key, 0.0) + float(weight)
        return dict(sorted(found.items(), key=lambda one: -one[1]))

    def ranked(self) -> list[tuple[Suspect, float]]:
        """Single suspects with how likely each is, pairs counted in, the likeliest first."""
        total = self.weights.copy()
        for pair, weight in zip(self.pairs, self.pair_weights, strict=True):
            total[list(pair)] += weight
        order = np.argsort(-total[FIRST:], kind="stable")
        return [(self.field.suspects[row], float(total[FIRST + row])) for row in order.tolist()]


def believe(field: Field, search: Search) -> Belief:
    """The belief after a search; it is played from its beginning."""
    prior, doubled = field.prior.copy(), PAIRS
    mended: list[str] = []
    phases: list[list[Step]] = [[]]
    for step in search.steps:
        if step.did is Did.MENDED:
            phases.append([step])
        else:
            phases[-1].append(step)
    belief = _weigh(field, prior, phases[0], doubled=doubled, mended=())
    for _, phase in pairwise(phases):
        mended.append(phase[0].on)
        prior, doubled = _after_mend(belief, phase[0].on, times=mended.count(phase[0].on))
        belief = _weigh(field, prior, phase[1:], doubled=doubled, mended=tuple(mended))
    return belief


MENDED = 0.98
"""How often a mend that was made does what it should."""
LEFT_OVER = 0.004
"""Odds kept for all suspects after a mend: it may have been one that nobody thought of."""


def _after_mend(belief: Belief, key: str, *, times: int) -> tuple[Floats, float]:
    """Every row without the thing that was mended, as odds to begin anew with.

    `times` is how often it has been mended by now: twice the same is hardly ever what is needed.
    """
    field = belief.field
    weights = belief.weights.copy()
    gone = np.array([mend == key for mend in field.mends])
    for (one, other), weight in zip(belief.pairs, belief.pair_weights, strict=True):
        if gone[one] or gone[other]:
            rest = other if gone[one] else one
            weights[NOTHING if gone[rest] else rest] += weight
        else:
            weights[one] += weight / 2
            weights[other] += weight / 2
    weights[NOTHING] += MENDED * weights[gone].sum()
    weights[gone] = 0.0
    weights = (1 - LEFT_OVER) * weights + LEFT_OVER * field.prior
    weights[gone] += belief.weights[gone] * (1 - MENDED) ** times
    return weights / weights.sum(), PAIRS / 10


def _weigh(
    field: Field,
    prior: Floats,
    steps: Iterable[Step],
    *,
    doubled: float,
    mended: tuple[str, ...],
) -> Belief:
    """The belief from odds and answers."""
    answered = tuple(one for one in steps if one.did is Did.ANSWERED)
    logs = np.array([_log(field, one, power) for one, power in _with_power(answered)])
    rows = logs.sum(axis=0) if answered else np.zeros(prior.size)
    singles = np.log(prior) + np.log(1 - doubled) + rows
    pairs, pair_logs = _pairs(field, prior, answered, logs=logs, doubled=doubled)
    top = max(float(singles.max()), float(pair_logs.max(initial=-np.inf)))
    weights, pair_weights = np.exp(singles - top), np.exp(pair_logs - top)
    total = float(weights.sum() + pair_weights.sum())
    return Belief(
        field=field,
        weights=weights / total,
        pairs=pairs,
        pair_weights=pair_weights / total,
        answered=answered,
        mended=mended,
    )


def _with_power(answered: Sequence[Step]) -> list[tuple[Step, float]]:
    """Each answer with what it counts: a repeat half of the one before."""
    times: dict[str, int] = {}
    found = []
    for one in answered:
        found.append((one, AGAIN ** times.get(one.on, 0)))
        times[one.on] = times.get(one.on, 0) + 1
    return found


def _log(field: Field, step: Step, power: float) -> Floats:
    check = field.check(step.on)
    logs: Floats = power * np.log(np.maximum(likelihood(field, check, step.answer), 1e-9))
    return logs


def _pairs(
    field: Field,
    prior: Floats,
    answered: Sequence[Step],
    *,
    logs: NDArray[np.float64],
    doubled: float,
) -> tuple[tuple[tuple[int, int], ...], Floats]:
    """The likeliest pairs. Where both would show something, the two are put into the rig."""
    if not answered or field.prior.size - FIRST < FIRST:
        return (), np.zeros(0)
    rows = _worth_pairing(prior, logs)
    places = np.array([field.place_of[one.on] for one in answered])
    codes = field.outcomes[np.ix_(rows, places)]
    mine = logs[:, rows].T
    quiet = codes == field.outcomes[NOTHING, places]
    first, second = np.triu_indices(rows.size, 1)
    shown = np.where(
        quiet[first],
        mine[second],
        np.where(quiet[second], mine[first], np.maximum(mine[first], mine[second])),
    )
    powers = [power for _, power in _with_power(answered)]
    loud = ~quiet & ~field.comes_and_goes[rows][:, None]
    for place, step in enumerate(answered):
        check = field.check(step.on)
        if check.trial is Trial.GLANCE:
            both = loud[first, place] & loud[second, place]
            wrong = _wrong_units(field, check)[codes[:, place]]
            likely = _log_of_units(check, wrong[first[both]] | wrong[second[both]], step.answer)
            shown[both, place] = powers[place] * likely
    odds = np.log(prior[rows])
    total = odds[first] + odds[second] + np.log(2 * doubled) + shown.sum(axis=1)
    best = np.argsort(-total, kind="stable")[:MOST_PAIRS]
    found: dict[tuple[int, int], float] = {}
    for one in best.tolist():
        pair = (int(rows[first[one]]), int(rows[second[one]]))
        if field.mends[pair[0]] == field.mends[pair[1]]:
            continue
        clash = ~quiet[first[one]] & ~quiet[second[one]] & (codes[first[one]] != codes[second[one]])
        exact = total[one]
        for place in np.flatnonzero(clash).tolist():
            seen = _log_of_both(field, pair, answered[place], powers[place])
            exact += seen - shown[one, place]
        found[pair] = float(exact)
    return tuple(found), np.array(list(found.values()), np.float64)


def _wrong_units(field: Field, check: Check) -> NDArray[np.bool_]:
    """For each outcome of a glance which of its units are not right."""
    named = [units_in(answer) for answer in field.answers[field.place_of[check.id]]]
    return np.array([[unit in one for unit in check.units] for one in named], np.bool_)


def _log_of_units(check: Check, wrong: NDArray[np.bool_], answer: str) -> Floats:
    """The likelihood of an answer to a glance, for each row of units that are not right.

    Two faults spoil together what either spoils alone, as a first guess: it tells which pairs are
    worth to be put into the rig.
    """
    said = units_in(answer)
    misses = (wrong != np.array([unit in said for unit in check.units])).sum(axis=1)
    hits = len(check.units) - misses
    return np.asarray(hits * np.log(check.sure) + misses * np.log(1 - check.sure))


def _worth_pairing(prior: Floats, logs: NDArray[np.float64]) -> NDArray[np.int64]:
    """Rows that explain some answer best, weighed by their odds."""
    above = logs - logs[:, [NOTHING]]
    worth = np.log(prior) + np.maximum(above, 0).sum(axis=0)
    worth[:FIRST] = -np.inf
    return np.sort(np.argsort(-worth, kind="stable")[:MOST_IN_PAIRS])


def _log_of_both(field: Field, pair: tuple[int, int], step: Step, power: float) -> float:
    """The likelihood of an answer with both faults in the rig."""
    check = field.check(step.on)
    if check.look:
        rows = likelihood(field, check, step.answer)[list(pair)]
        return power * float(np.log(max(float(rows.max()), 1e-9)))
    one, other = (field.suspects[row - FIRST] for row in pair)
    outcome = observed(field.worlds, check, (*one.changes, *other.changes))
    known = field.answers[field.place_of[check.id]]
    if outcome in known:
        share = float(by_answer(field, check, step.answer)[known.index(outcome)])
    else:
        share = check.sure if outcome == step.answer else 1 - check.sure
    return power * float(np.log(max(share, 1e-9)))
