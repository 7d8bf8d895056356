"""The most that each further mistake could explain, from counts alone.

To try a mistake is to build what would be heard with it. There are hundreds, and most are no use:
nothing is amiss where they change anything. So what stands where they change something is counted
once, by unit, by step and by the way that messages take, and only what gives hope enough is tried.
"""

from collections.abc import Iterator
from functools import cached_property
from typing import NamedTuple

import numpy as np

from thruline.audit.build import KIND_OF_WHAT, build, channels_with, status_in, step_in
from thruline.audit.fault import WHAT, Family, Fault
from thruline.audit.ground import Ground
from thruline.audit.listed import Kin
from thruline.audit.meant import CONTROL, NO_KEY, PROGRAM, Column, Meant
from thruline.audit.score import Fit
from thruline.audit.shifted import fits_shifted
from thruline.midi.specs import CHANNELS, DATA_MAX

KINDS, STATUSES = 16, 256
SORTS = 5
SOUND, SHORT, DROPPED, UNPRESSED, SILENT = range(SORTS)
"""Rows heard as often as they should be; heard less often; dropped by an output on the way for
their channel; of presses that were not done, or put off the board; silent for any other reason."""


def is_lost(helps: int, harms: int) -> bool:
    """Whether a mistake helps nothing, or harms far more of what was heard than it helps.

    Each message that it makes unforeseen costs more than half of what one that it explains can
    save, so twice as many and a few more can never be made good.
    """
    return helps == 0 or harms > 2 * helps + 4


class _Reach(NamedTuple):
    """What each of some mistakes can do.

    Rows that it helps at most and harms at least; messages that it foresees at most, and those that
    it does not any more at least; rows that are not to be heard with it at most.
    """

    helps: Column
    harms: Column
    gains: Column
    losses: Column
    drops: Column


class Hopes:
    """What there is to hope for from each further mistake on one ground.

    Tables of rows end with how many there are of each sort. The rows that a mistake touches are
    those of `build.touched`.
    """

    def __init__(self, ground: Ground) -> None:
        meant, rows, came = ground.meant, ground.meant.rows, ground.came
        steps, units = len(meant.steps), len(meant.units) + 1  # the first is for no unit
        sorts = _sorts(ground)
        by_kind = _table(sorts, KINDS * (rows.unit + 1) + rows.kind, KINDS * units)
        by_kind = by_kind.reshape(units, KINDS, SORTS)
        self._ground = ground
        self._kinds = by_kind[1:]
        self._units = self._kinds.sum(axis=1)
        self._all = by_kind.sum(axis=0)
        at_an_end = (rows.kind == PROGRAM) & ((rows.first == 0) | (rows.first == DATA_MAX))
        self._at_an_end = np.bincount(rows.unit[at_an_end] + 1, minlength=units)[1:]
        self._steps = _table(sorts, rows.step, steps)
        self._ways = _ways(ground, sorts)
        self._channels = channels_with(meant, ground.faults)
        self._drops = any(_heeds_channels(meant, one) for one in ground.faults)
        self._shifts = any(one.family is Family.SLOTS for one in ground.faults)
        by_status = _summed(status_in(came.keys), came.counts, KINDS * CHANNELS)
        self._came = by_status.reshape(KINDS, CHANNELS)
        self._came_at = _summed(step_in(came.keys), came.counts, steps)

    def bests(self, kin: Kin) -> Iterator[tuple[Fault, Fit]]:
        """Those of some mistakes that are any good, each with the best fit there could be."""
        before = self._ground.fit
        reach = np.broadcast_arrays(*self._reach(kin))
        columns = zip(kin.faults, *(one.tolist() for one in reach), strict=True)
        for fault, helps, harms, gains, losses, drops in columns:
            if is_lost(helps, harms):
                continue
            if fault.family is Family.SLOTS:
                yield fault, self._shifted[fault]
                continue
            both = before.predicted - before.missing + gains - losses
            predicted = max(both, before.predicted - drops)
            yield fault, Fit(predicted, predicted - both, before.unforeseen - gains + losses)

    @cached_property
    def _shifted(self) -> dict[Fault, Fit]:
        """The fits with presets one place off: seldom asked for."""
        return fits_shifted(self._ground)

    def _reach(self, kin: Kin) -> _Reach:
        match kin.family:
            case Family.STALE | Family.STALE_ALL | Family.SLOTS:
                return self._of_presets(kin)
            case Family.OMITTED:
                return _dropped(self._kinds[kin.first, _kinds(kin.second)])
            case Family.FILTER:
                return _dropped(self._all[_kinds(kin.first)])
            case Family.SHUT:
                return _dropped(self._ways[kin.first, kin.second])
            case Family.SWALLOWED:
                return _dropped(self._ways[kin.first, len(WHAT)])
            case _:
                return self._of_units(kin)

    def _of_presets(self, kin: Kin) -> _Reach:
        """Mistakes about presets. They may bring to light what is silent."""
        meant, came = self._ground.meant, np.array(self._ground.fit.unforeseen)
        match kin.family:
            case Family.STALE:
                rows = self._steps[kin.first]
                came = came if self._shifts else self._came_at[kin.first]
            case Family.STALE_ALL:
                rows = self._steps[list(meant.changed)].sum(axis=0, keepdims=True)
            case _:
                from_each = self._steps[: meant.presets][::-1].cumsum(axis=0)[::-1]
                rows = from_each[kin.first]
        sound, all_rows = rows[:, SOUND], rows.sum(axis=1)
        gains, drops = np.minimum(all_rows, came), sound + rows[:, SHORT]
        none = np.zeros_like(sound)
        if kin.family is not Family.SLOTS:  # an earlier version may be the same in part
            return _Reach(all_rows - sound, none, gains, none, drops)
        return _Reach(rows[:, SHORT] + rows[:, UNPRESSED], sound, gains, none, drops)

    def _of_units(self, kin: Kin) -> _Reach:
        """Mistakes in how a unit is addressed, or in the numbers that it is sent."""
        own, came_on = self._ground.meant.channels, self._came.sum(axis=0)
        match kin.family:
            case Family.CHANNEL:
                rows = self._units[kin.first]
                sound = rows[:, SOUND]
                return self._moved(rows, came_on[kin.second], harms=sound, losses=sound)
            case Family.SWAPPED:
                rows = self._units[kin.first] + self._units[kin.second]
                came = came_on[own[kin.first]] + came_on[own[kin.second]]
                moved = np.where(own == self._channels, self._units[:, SOUND], 0)
                return self._moved(rows, came, harms=moved[kin.first] + moved[kin.second])
            case Family.NUMBERING:
                rows = self._kinds[kin.first, PROGRAM]
                came = self._came[PROGRAM, self._channels[kin.first]]
                return self._moved(rows, came, harms=rows[:, SOUND] - self._at_an_end[kin.first])
            case _:
                rows = self._kinds[kin.first, CONTROL]
                return self._moved(rows, self._came[CONTROL, self._channels[kin.first]])

    def _moved(
        self, rows: Column, came: Column, *, harms: Column | None = None,
        losses: Column | None = None,
    ) -> _Reach:  # fmt: skip
        """Rows get other keys; so many messages came that they might be."""
        none = np.zeros_like(came)
        helps = rows[:, SHORT] + rows[:, DROPPED]
        gains = np.minimum(rows[:, SOUND] + helps, came)
        drops = rows[:, SOUND] + rows[:, SHORT] if self._drops else none
        return _Reach(
            helps,
            none if harms is None else harms,
            gains,
            none if losses is None else losses,
            drops,
        )


def _dropped(rows: Column) -> _Reach:
    """Rows are not heard any more."""
    sound, short = rows[:, SOUND], rows[:, SHORT]
    return _Reach(short, sound, np.zeros_like(sound), sound, sound + short)


def _kinds(whats: Column) -> Column:
    """The kinds of message meant by some of `fault.WHAT`."""
    return np.array([KIND_OF_WHAT[what] for what in whats.tolist()], np.int64)


def _summed(places: Column, counts: Column, size: int) -> Column:
    return np.bincount(places, weights=counts, minlength=size).astype(np.int64)


def _sorts(ground: Ground) -> Column:
    """Of each row whether it is sound, short, silent, unpressed or dropped."""
    meant, faults, is_heard = ground.meant, ground.faults, ground.keys != NO_KEY
    in_place = [one for one in faults if one.family is not Family.SLOTS]
    all_heard = build(meant, in_place, np.ones_like(ground.pressed)) != NO_KEY
    found = np.where(all_heard, UNPRESSED, SILENT)
    found[is_heard] = np.where(ground.lacking[is_heard], SHORT, SOUND)
    heedless = [one for one in faults if not _heeds_channels(meant, one)]
    if len(heedless) < len(faults):
        found[~is_heard & (build(meant, heedless, ground.pressed) != NO_KEY)] = DROPPED
    return found


def _heeds_channels(meant: Meant, fault: Fault) -> bool:
    """Whether it depends on their channel which messages a mistake drops."""
    cut = meant.cut[fault.first].reshape(-1, CHANNELS) if fault.family is Family.SHUT else None
    is_uneven = cut is not None and bool((cut.any(axis=1) != cut.all(axis=1)).any())
    return is_uneven or fault.family is Family.SWALLOWED


def _table(sorts: Column, places: Column, size: int) -> Column:
    """How many rows there are of each sort at each place."""
    return np.bincount(SORTS * places + sorts, minlength=SORTS * size).reshape(size, SORTS)


def _ways(ground: Ground, sorts: Column) -> Column:
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
    return found.astype(np.int64)
