"""The most that each further mistake could explain, from counts alone.

To try a mistake is to build what would be heard with it. There are hundreds, and most are no use:
nothing is amiss where they change anything. So what stands where they change something is counted
once, by unit, by step and by the way that messages take, and only what gives hope enough is tried.
"""

from collections.abc import Iterable
from functools import cached_property
from typing import NamedTuple

import numpy as np

from thruline.audit.build import KIND_OF_WHAT, build, channels_with, status_in, step_in
from thruline.audit.fault import WHAT, Family, Fault
from thruline.audit.ground import Ground
from thruline.audit.meant import CONTROL, NO_KEY, PROGRAM, Column, Meant
from thruline.audit.score import Fit
from thruline.audit.shifted import fits_shifted
from thruline.midi.specs import CHANNELS, DATA_MAX

KINDS, STATUSES = 16, 256


def is_lost(helps: int, harms: int) -> bool:
    """Whether a mistake helps nothing, or harms far more of what was heard than it helps.

    Each message that it makes unforeseen costs more than half of what one that it explains can
    save, so twice as many and a few more can never be made good.
    """
    return helps == 0 or harms > 2 * helps + 4


class _Rows(NamedTuple):
    """How many rows of each sort a mistake touches.

    Those heard as often as they should be; those heard less often; those that an output on the way
    drops for their channel; those at presses that were not done; and all else that is silent.
    """

    sound: int
    short: int
    dropped: int
    unpressed: int
    silent: int


SOUND, SHORT, DROPPED, UNPRESSED, SILENT = range(len(_Rows._fields))
SORTS = len(_Rows._fields)


def _sum(some: Iterable[_Rows]) -> _Rows:
    return _Rows(*map(sum, zip(*some, strict=True)))


class Hopes:
    """What there is to hope for from each further mistake on one ground."""

    def __init__(self, ground: Ground) -> None:
        meant, rows, came = ground.meant, ground.meant.rows, ground.came
        steps, units = len(meant.steps), len(meant.units) + 1  # the first is for no unit
        sorts = _sorts(ground)
        by_unit = _table(sorts, KINDS * (rows.unit + 1) + rows.kind, KINDS * units)
        by_unit = by_unit.reshape(units, KINDS, SORTS)
        self._ground = ground
        self._meant = meant
        self._before = ground.fit
        self._kinds = [[_Rows(*kind) for kind in unit] for unit in by_unit[1:].tolist()]
        self._units = [_Rows(*one) for one in by_unit[1:].sum(axis=1).tolist()]
        at_an_end = (rows.kind == PROGRAM) & np.isin(rows.first, (0, DATA_MAX))
        self._at_an_end = np.bincount(rows.unit[at_an_end] + 1, minlength=units)[1:].tolist()
        self._all = [_Rows(*one) for one in by_unit.sum(axis=0).tolist()]
        by_step = _table(sorts, rows.step, steps)
        self._steps = [_Rows(*one) for one in by_step.tolist()]
        by_step = by_step[: meant.presets][::-1].cumsum(axis=0)[::-1]
        self._steps_from = [_Rows(*one) for one in by_step.tolist()]
        self._ways = _ways(ground, sorts)
        self._own: list[int] = meant.channels.tolist()
        self._channels: list[int] = channels_with(meant, ground.faults).tolist()
        self._drops = any(_heeds_channels(meant, one) for one in ground.faults)
        self._shifts = any(one.family is Family.SLOTS for one in ground.faults)
        by_status = np.bincount(status_in(came.keys), weights=came.counts, minlength=STATUSES)
        by_status = by_status.astype(np.int64).reshape(KINDS, CHANNELS)
        self._came: list[list[int]] = by_status.tolist()
        self._came_on: list[int] = by_status.sum(axis=0).tolist()
        by_step = np.bincount(step_in(came.keys), weights=came.counts, minlength=steps)
        self._came_at: list[int] = by_step.astype(np.int64).tolist()

    @cached_property
    def _shifted(self) -> dict[Fault, Fit]:
        """The fits with presets one place off: seldom asked for."""
        return fits_shifted(self._ground)

    def best(self, fault: Fault) -> Fit | None:
        """The best fit there could be with one mistake more; None when that is no good.

        The rows that it touches are those of `build.touched`.
        """
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

    def _of_presets(self, fault: Fault) -> Fit | None:
        """Mistakes about presets. They may bring to light what is silent."""
        came = self._before.unforeseen
        match fault.family:
            case Family.STALE:
                rows = self._steps[fault.first]
                came = came if self._shifts else self._came_at[fault.first]
            case Family.STALE_ALL:
                rows = _sum(self._steps[step] for step in self._meant.changed)
            case _:
                rows = self._steps_from[fault.first]
        helps, harms = sum(rows) - rows.sound, 0  # an earlier version may be the same in part
        if fault.family is Family.SLOTS:
            harms = rows.sound
            if not self._shifts:
                helps = rows.short + rows.unpressed
                return None if is_lost(helps, harms) else self._shifted[fault]
        gains = min(sum(rows), came)
        return self._fit(helps, harms, gains=gains, drops=rows.sound + rows.short)

    def _of_a_unit(self, fault: Fault) -> Fit | None:
        """Mistakes in how a unit is addressed, or in the numbers that it is sent."""
        unit, other, _ = fault[1:]
        match fault.family:
            case Family.CHANNEL:
                rows = self._units[unit]
                return self._moved(rows, self._came_on[other], harms=rows.sound, losses=rows.sound)
            case Family.SWAPPED:
                rows = _sum((self._units[unit], self._units[other]))
                came = sum(self._came_on[self._own[one]] for one in (unit, other))
                moved = [one for one in (unit, other) if self._own[one] == self._channels[one]]
                return self._moved(rows, came, harms=sum(self._units[one].sound for one in moved))
            case Family.NUMBERING:
                rows, came = self._kinds[unit][PROGRAM], self._came[PROGRAM][self._channels[unit]]
                return self._moved(rows, came, harms=rows.sound - self._at_an_end[unit])
            case _:
                rows, came = self._kinds[unit][CONTROL], self._came[CONTROL][self._channels[unit]]
                return self._moved(rows, came)

    def _moved(self, rows: _Rows, came: int, *, harms: int = 0, losses: int = 0) -> Fit | None:
        """Rows get other keys; so many messages came that they might be."""
        gains = min(rows.sound + rows.short + rows.dropped, came)
        drops = rows.sound + rows.short if self._drops else 0
        helps = rows.short + rows.dropped
        return self._fit(helps, harms, gains=gains, losses=losses, drops=drops)

    def _dropped(self, rows: _Rows) -> Fit | None:
        """Rows are not heard any more."""
        drops = rows.sound + rows.short
        return self._fit(rows.short, rows.sound, losses=rows.sound, drops=drops)

    def _fit(
        self, helps: int, harms: int, *, gains: int = 0, losses: int = 0, drops: int = 0
    ) -> Fit | None:
        """The best fit where so many more are foreseen, or fewer, and at most so many not sent.

        None where at most so many rows are helped, at least so many harmed, and that is no good.
        """
        if is_lost(helps, harms):
            return None
        before = self._before
        both = before.predicted - before.missing + gains - losses
        predicted = max(both, before.predicted - drops)
        return Fit(predicted, predicted - both, before.unforeseen - gains + losses)


def _sorts(ground: Ground) -> Column:
    """Which of the sorts of `_Rows` each row is."""
    meant, is_heard = ground.meant, ground.keys != NO_KEY
    found = np.where(ground.everything == NO_KEY, SILENT, UNPRESSED)
    found[is_heard] = np.where(ground.lacking[is_heard], SHORT, SOUND)
    others = [one for one in ground.faults if not _heeds_channels(meant, one)]
    if len(others) < len(ground.faults):
        found[~is_heard & (build(meant, others, ground.pressed) != NO_KEY)] = DROPPED
    return found


def _heeds_channels(meant: Meant, fault: Fault) -> bool:
    """Whether it depends on their channel which messages a mistake drops."""
    cut = meant.cut[fault.first].reshape(-1, CHANNELS) if fault.family is Family.SHUT else None
    is_uneven = cut is not None and bool((cut.any(axis=1) != cut.all(axis=1)).any())
    return is_uneven or fault.family is Family.SWALLOWED


def _table(sorts: Column, places: Column, size: int) -> Column:
    """How many rows there are of each sort at each place."""
    return np.bincount(SORTS * places + sorts, minlength=SORTS * size).reshape(size, SORTS)


def _ways(ground: Ground, sorts: Column) -> list[list[_Rows]]:
    """What each line may drop: anything, each kind alone, and what is on its own channel."""
    meant, heard = ground.meant, ground.keys != NO_KEY
    taps, statuses = len(meant.taps), np.arange(STATUSES)
    places = meant.rows.tap[heard] * STATUSES + status_in(ground.keys[heard])
    counts = _table(sorts[heard], places, taps * STATUSES)
    kind, channel = statuses >> 4, statuses & 0x0F
    chosen = [meant.cut & (kind == KIND_OF_WHAT.get(what, kind)) for what in range(len(WHAT))]
    chosen.append(meant.cut & (channel == meant.own[:, np.newaxis, np.newaxis]))
    by_line = np.stack(chosen, axis=1).reshape(len(meant.lines), len(chosen), -1)
    found = by_line.astype(np.float64) @ counts  # whole numbers are multiplied far slower
    return [[_Rows(*one) for one in line] for line in found.astype(np.int64).tolist()]
