"""How likely an answer is, for every suspect: observers err, and some faults come and go."""

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from thruline.find.checks import Check
from thruline.find.field import NOTHING, OTHER, Field, units_in
from thruline.find.trials import Trial

Floats: TypeAlias = NDArray[np.float64]
ACTS = 0.5
"""How often a fault that comes and goes shows at a press."""
STILL_GOOD = 0.9
"""How often a thing that is looked at is good when something unknown is wrong."""
SOMETIMES = "sometimes"


def likelihood(field: Field, check: Check, answer: str) -> Floats:
    """The likelihood of an answer, for every row of the field."""
    place = field.place_of[check.id]
    codes = field.outcomes[:, place]
    by_code = by_answer(field, check, answer)
    found = by_code[codes]
    shows_at_a_press = bool(check.number or check.trial is Trial.TEMPO)
    if shows_at_a_press:
        good = codes[0]
        hit = field.comes_and_goes & (codes != good)
        if check.trial is Trial.REPEAT:
            right = answer == SOMETIMES
            found[hit] = check.sure if right else (1 - check.sure) / (len(check.answers) - 1)
        else:
            found[hit] = ACTS * found[hit] + (1 - ACTS) * by_code[good]
    found[OTHER] = _by_chance(field, check, answer)
    return found


def by_answer(field: Field, check: Check, answer: str) -> Floats:
    """The likelihood of an answer, for each outcome that was predicted for a check."""
    predicted = field.answers[field.place_of[check.id]]
    if check.trial is not Trial.GLANCE:
        wrong = (1 - check.sure) / max(1, len(predicted) - 1)
        return np.array([check.sure if one == answer else wrong for one in predicted])
    seen, count = units_in(answer), len(check.units)
    misses = [len(seen ^ units_in(one)) for one in predicted]
    return np.array([check.sure ** (count - miss) * (1 - check.sure) ** miss for miss in misses])


def _by_chance(field: Field, check: Check, answer: str) -> float:
    """The likelihood of an answer where something unknown is wrong.

    It may spoil any press, and hardly ever the thing that one happens to look at.
    """
    if check.trial is Trial.GLANCE:
        return float(0.5 ** len(check.units))
    good = STILL_GOOD if check.look else ACTS
    place = field.place_of[check.id]
    if answer == field.answers[place][field.outcomes[NOTHING, place]]:
        return good
    return (1 - good) / max(1, len(check.answers) - 1)


def noisy(shares: Floats, sure: Floats) -> Floats:
    """The shares of answers, given those of outcomes (last axis) and how sure observers are.

    `sure` has the shape of `shares`, or one that is broadcast to it.
    """
    wrong = (1 - sure) / max(1, shares.shape[-1] - 1)
    mixed: Floats = shares * (sure - wrong) + wrong * shares.sum(axis=-1, keepdims=True)
    return mixed
