"""How it fits if from some preset on everything stands one place later, or earlier."""

import numpy as np

from thruline.audit.build import STEP_AT, step_in
from thruline.audit.fault import Family, Fault
from thruline.audit.ground import Ground
from thruline.audit.meant import Column
from thruline.audit.score import Counted, Fit, counted


def fits_shifted(ground: Ground) -> dict[Fault, Fit]:
    """The fit with each such mistake on top of others, none of which is of its kind.

    What one preset sends, held against what came at its own press and at those beside it, adds up
    over the presets: those before the one in question stay, those from it on are heard elsewhere.
    """
    fits = dict[Fault, Fit]()
    plan, heard = counted(ground.everything), int(ground.heard.counts.sum())
    stay = _sums(ground, plan, 0)
    before = np.concatenate((np.zeros((2, 1), np.int64), stay.cumsum(axis=1)), axis=1)
    others = np.array((ground.fit.predicted, ground.fit.predicted - ground.fit.missing))
    others -= stay.sum(axis=1)
    for way in (1, -1):
        moved = _sums(ground, plan, way)
        if way < 0:  # the place of the first is gone
            moved = np.concatenate((moved[:, 1:], np.zeros((2, 1), np.int64)), axis=1)
        after = moved[:, ::-1].cumsum(axis=1)[:, ::-1]
        sums = (before[:, :-1] + after + others[:, np.newaxis]).T.tolist()
        for step, (predicted, both) in enumerate(sums):
            fits[Fault(Family.SLOTS, step, way)] = Fit(predicted, predicted - both, heard - both)
    return fits


def _sums(ground: Ground, plan: Counted, way: int) -> Column:
    """For each preset the messages to be heard, and those that were, if it stood `way` on."""
    presets, step = ground.meant.presets, step_in(plan.keys)
    there = step + way
    goes = (step < presets) & (there >= 0) & (there < presets)
    goes &= ground.pressed[np.where(goes, there, 0)]
    both = np.minimum(plan.counts, ground.heard.of(plan.keys + (way << STEP_AT)))
    sums = [np.bincount(step[goes], one[goes], minlength=presets) for one in (plan.counts, both)]
    return np.array(sums).astype(np.int64)
