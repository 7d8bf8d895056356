"""How it fits if from some preset on everything stands one place later, or earlier."""

from bisect import bisect
from collections.abc import Iterator, Sequence
from itertools import pairwise

import numpy as np

from thruline.audit.build import GONE, STEP_AT, build, moved_steps, step_in
from thruline.audit.fault import Family, Fault
from thruline.audit.ground import Ground
from thruline.audit.meant import Column
from thruline.audit.score import Counted, Fit, counted


def fits_shifted(ground: Ground) -> dict[Fault, Fit]:
    """The fit with each such mistake on top of others.

    What a preset sends is heard as a whole, and that of no two presets at one press. So each is
    held once against what came at every press where it may be heard, and the rest is adding up.
    """
    presets = ground.meant.presets
    shifts = tuple(one for one in ground.faults if one.family is Family.SLOTS)
    others = [one for one in ground.faults if one.family is not Family.SLOTS]
    plan = counted(build(ground.meant, others, np.ones_like(ground.pressed)))
    most = len(shifts) + 1
    sums = [_sums(ground, plan, way) for way in range(-most, most + 1)]
    table = np.stack((*sums, np.zeros_like(sums[0])))  # the last for what is heard nowhere
    further = [Fault(Family.SLOTS, step, way) for step in range(presets) for way in (-1, 1)]
    places = np.arange(presets)
    steps = np.stack([*_steps(shifts, further, places), _shifted(shifts, places, places)])
    ways = np.where(steps == GONE, -1, steps - places + most)
    *totals, now = table[ways, places].sum(axis=1)
    before, heard = ground.fit, int(ground.heard.counts.sum())
    sweeps = np.array((before.predicted, before.predicted - before.missing)) - now
    found = (np.array(totals) + sweeps).tolist()
    return {
        fault: Fit(predicted, predicted - both, heard - both)
        for fault, (predicted, both) in zip(further, found, strict=True)
    }


def _steps(shifts: Sequence[Fault], further: Sequence[Fault], places: Column) -> Iterator[Column]:
    """Where each preset is heard with every further shift, each of which acts at its turn."""
    turns = [0, *(bisect(further, one) for one in shifts), len(further)]
    for turn, (begin, end) in enumerate(pairwise(turns)):
        some = np.array([one[1:3] for one in further[begin:end]], np.int64).reshape(-1, 2, 1)
        steps = np.tile(_shifted(shifts[:turn], places, places), (len(some), 1))
        first, way = some[:, 0], some[:, 1]
        steps = moved_steps(steps, places, first=first, way=way, presets=places.size)
        yield from _shifted(shifts[turn:], steps, places)


def _shifted(shifts: Sequence[Fault], steps: Column, places: Column) -> Column:
    for one in shifts:
        first, way = one.first, one.second
        steps = moved_steps(steps, places, first=first, way=way, presets=places.size)
    return steps


def _sums(ground: Ground, plan: Counted, way: int) -> Column:
    """Of each preset the messages to be heard and those that were, if it stood `way` on."""
    presets, step = ground.meant.presets, step_in(plan.keys)
    there = step + way
    goes = (step < presets) & (there >= 0) & (there < presets)
    goes &= ground.pressed[np.where(goes, there, 0)]
    both = np.minimum(plan.counts, ground.heard.of(plan.keys + (way << STEP_AT)))
    sums = [np.bincount(step[goes], one[goes], minlength=presets) for one in (plan.counts, both)]
    return np.stack(sums, axis=1).astype(np.int64)
