"""The most that each further mistake could explain, from counts alone.

To try a mistake is to build what would be heard with it. There are hundreds, and most are no use:
nothing is amiss where they change anything. So what stands where they change something is counted
once, by unit, by step and by the way that messages take, and only what gives hope enough is tried.
"""

from typing import NamedTuple

import numpy as np

from thruline.audit.build import KIND_OF_WHAT, channels_with, in_force, status_in, step_in
from thruline.audit.fault import WHAT, Family, Fault
from thruline.audit.ground import Ground
from thruline.audit.meant import CONTROL, NO_KEY, PROGRAM, Column
from thruline.audit.score import Fit
from thruline.audit.shifted import fits_shifted
from thruline.midi.specs import CHANNELS, DATA_MAX

KINDS, STATUSES = 16, 256

SORTS = 4
_BY_CHANNEL = frozenset((Family.SHUT, Family.SWALLOWED))
"""Families that drop messages by their channel: with them, a change of channel may drop some."""


class Hope(NamedTuple):
    """What a mistake could do: rows that it helps at most, harms at least, and the best fit."""

    helps: int
    harms: int
    fit: Fit


def is_lost(helps: int, harms: int) -> bool:
    """Whether a mistake helps nothing, or harms far more of what was heard than it helps.

    Each message that it makes unforeseen costs more than half of what one that it explains can
    save, so twice as many and a few more can never be made good.
    """
    return helps == 0 or harms > 2 * helps + 4


class _Rows(NamedTuple):
    """How many rows of each sort a mistake touches.

    Those heard as often as they should be; those heard less often; those that other mistakes
    silence; and those of a version or of a press that is not looked at.
    """

    sound: int
    short: int
    silent: int
    aside: int


class Hopes:
    """What there is to hope for from each further mistake on one ground."""

    def __init__(self, ground: Ground) -> None:
        meant, rows, came = ground.meant, ground.meant.rows, ground.came
        steps, families = len(meant.steps), {one.family for one in ground.faults}
        sorts = _sorts(ground)
        units = _table(sorts, KINDS * (rows.unit + 1) + rows.kind, KINDS * (len(meant.units) + 1))
        units = units.reshape(-1, KINDS, SORTS)
        self._meant = meant
        self._before = ground.fit
        self._kinds = [[_Rows(*kind) for kind in unit] for unit in units[1:].tolist()]
        self._units = [_Rows(*one) for one in units[1:].sum(axis=1).tolist()]
        at_an_end = (rows.kind == PROGRAM) & np.isin(rows.first, (0, DATA_MAX))
        self._at_an_end = np.bincount(rows.unit[at_an_end] + 1, minlength=len(units))[1:].tolist()
        self._all = [_Rows(*one) for one in units.sum(axis=0).tolist()]
        self._steps = _table(sorts, rows.step, steps)
        self._ways = _ways(ground, sorts)
        self._channels: list[int] = channels_with(meant, ground.faults).tolist()
        self._drops = bool(families & _BY_CHANNEL)
        self._shifts = Family.SLOTS in families
        self._slots = {} if self._shifts else fits_shifted(ground)
        by_status = np.bincount(status_in(came.keys), weights=came.counts, minlength=STATUSES)
        by_status = by_status.astype(np.int64).reshape(KINDS, CHANNELS)
        self._came: list[list[int]] = by_status.tolist()
        self._came_on: list[int] = by_status.sum(axis=0).tolist()
        self._came_at = np.bincount(step_in(came.keys), weights=came.counts, minlength=steps)

    def of(self, fault: Fault) -> Hope:
        """What one mistake could do; the rows that it touches are those of `build.touched`."""
        match fault.family:
            case Family.STALE | Family.STALE_ALL | Family.SLOTS:
                return self._of_presets(fault)
            case Family.OMITTED:
                return self._dropped(self._kinds[fault.first][KIND_OF_WHAT[fault.second]])
            case Family.FILTER:
                return self._dropped(self._all[KIND_OF_WHAT[fault.first]])
            case Family.SHUT:
                return self._dropped(self._ways[fault.first][fault.second])
            case Family.SWALLOWED:
                return self._dropped(self._ways[fault.first][len(WHAT)])
            case _:
                return self._of_a_unit(fault)

    def _of_presets(self, fault: Fault) -> Hope:
        """Mistakes about presets. They may bring to light what is aside."""
        came = self._before.unforeseen
        match fault.family:
            case Family.STALE:
                steps = self._steps[fault.first : fault.first + 1]
                came = came if self._shifts else int(self._came_at[fault.first])
            case Family.STALE_ALL:
                steps = self._steps[list(self._meant.changed)]
            case _:
                steps = self._steps[fault.first : self._meant.presets]
        rows = _Rows(*steps.sum(axis=0).tolist())
        best = self._slots.get(fault)
        if best is None:
            best = self._fit(gains=min(sum(rows), came), drops=rows.sound + rows.short)
        are_all = fault.family is Family.SLOTS  # an earlier version may be the same in part
        return Hope(sum(rows) - rows.sound, rows.sound if are_all else 0, best)

    def _of_a_unit(self, fault: Fault) -> Hope:
        """Mistakes in how a unit is addressed, or in the numbers that it is sent."""
        unit, other, _ = fault[1:]
        match fault.family:
            case Family.CHANNEL:
                rows = self._units[unit]
                return self._moved(rows, self._came_on[other], harms=rows.sound, losses=rows.sound)
            case Family.SWAPPED:
                rows = _Rows(*map(sum, zip(self._units[unit], self._units[other], strict=True)))
                own = {one: int(self._meant.channels[one]) for one in (unit, other)}
                came = sum(self._came_on[channel] for channel in own.values())
                moved = [one for one, channel in own.items() if channel == self._channels[one]]
                return self._moved(rows, came, harms=sum(self._units[one].sound for one in moved))
            case Family.NUMBERING:
                rows = self._kinds[unit][PROGRAM]
                return self._moved(
                    rows, self._came_for(unit, PROGRAM), harms=rows.sound - self._at_an_end[unit]
                )
            case _:
                rows = self._kinds[unit][CONTROL]
                return self._moved(rows, self._came_for(unit, CONTROL))

    def _came_for(self, unit: int, kind: int) -> int:
        """Messages that came besides, of a kind, on the channel where a unit is addressed."""
        return self._came[kind][self._channels[unit]]

    def _moved(self, rows: _Rows, came: int, *, harms: int = 0, losses: int = 0) -> Hope:
        """Rows get other keys; so many messages came that they might be."""
        gains = min(rows.sound + rows.short + rows.silent, came)
        drops = rows.sound + rows.short if self._drops else 0
        best = self._fit(gains=gains, losses=losses, drops=drops)
        return Hope(rows.short + rows.silent, harms, best)

    def _dropped(self, rows: _Rows) -> Hope:
        """Rows are not heard any more."""
        best = self._fit(losses=rows.sound, drops=rows.sound + rows.short)
        return Hope(rows.short, rows.sound, best)

    def _fit(self, *, gains: int = 0, losses: int = 0, drops: int = 0) -> Fit:
        """The best fit where so many more are foreseen, or fewer, and at most so many not sent."""
        before = self._before
        both = before.predicted - before.missing + gains - losses
        predicted = max(both, before.predicted - drops)
        return Fit(predicted, predicted - both, before.unforeseen - gains + losses)


def _sorts(ground: Ground) -> Column:
    """Which of the four sorts of `_Rows` each row is."""
    keys = ground.keys
    found = np.where(ground.lacking, 1, 0)
    found[keys == NO_KEY] = 2
    is_aside = (keys != ground.everything) | ~in_force(ground.meant, ground.faults)
    return np.where(is_aside, 3, found)


def _table(sorts: Column, places: Column, size: int) -> Column:
    """How many rows there are of each sort at each place."""
    return np.bincount(SORTS * places + sorts, minlength=SORTS * size).reshape(size, SORTS)


def _ways(ground: Ground, sorts: Column) -> list[list[_Rows]]:
    """What each line may drop: anything, each kind alone, and what is on its own channel."""
    meant, heard = ground.meant, ground.keys != NO_KEY
    taps, statuses = len(meant.taps), np.arange(STATUSES)
    places = meant.rows.tap[heard] * STATUSES + status_in(ground.keys[heard])
    counts = _table(sorts[heard], places, taps * STATUSES)
    kinds = [statuses >> 4 == KIND_OF_WHAT.get(what, statuses >> 4) for what in range(len(WHAT))]
    found = []
    for cut, own in zip(meant.cut, meant.own, strict=True):
        dropped = [(cut & what).ravel() for what in (*kinds, statuses & 0x0F == own)]
        found.append([_Rows(*counts[one].sum(axis=0).tolist()) for one in dropped])
    return found
