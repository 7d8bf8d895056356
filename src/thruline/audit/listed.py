"""Every mistake that can be listed beforehand, and those that show in what came."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

import numpy as np

from thruline.audit.build import (
    FIRST_AT,
    FIRST_BITS,
    FIRST_MOST,
    STATUS_AT,
    channels_with,
    status_in,
)
from thruline.audit.fault import ALL, CONTROLS, PROGRAMS, Family, Fault
from thruline.audit.meant import CONTROL, PROGRAM, Column, Meant
from thruline.audit.travels import whole

MOST_READ_OFF = 32
"""As many wrong control numbers are read off what came, those that show most often."""


class Kin(NamedTuple):
    """Mistakes of one family, and what they are about in columns."""

    family: Family
    faults: tuple[Fault, ...]
    first: Column
    second: Column


def kin_of(faults: Iterable[Fault]) -> tuple[Kin, ...]:
    """Mistakes by family, in order of the first of each."""
    found: dict[Family, list[Fault]] = {}
    for fault in faults:
        found.setdefault(fault.family, []).append(fault)
    return tuple(_kin(family, tuple(some)) for family, some in found.items())


def _kin(family: Family, faults: tuple[Fault, ...]) -> Kin:
    numbers = np.array([fault[1:3] for fault in faults], np.int64)
    return Kin(family, faults, numbers[:, 0], numbers[:, 1])


def every_fault(meant: Meant) -> Iterator[Fault]:
    """Every mistake that can be listed beforehand; wrong control numbers show in what came."""
    rows = meant.rows
    for step in meant.changed:
        yield Fault(Family.STALE, step)
    if len(meant.changed) > 1:
        yield Fault(Family.STALE_ALL)
    for step in range(meant.presets):
        yield from (Fault(Family.SLOTS, step, way) for way in (1, -1))
    addressed = sorted(set(rows.unit[rows.unit >= 0].tolist()))
    programmed = set(rows.unit[rows.kind == PROGRAM].tolist())
    controlled = set(rows.unit[(rows.kind == CONTROL) & ~rows.travel].tolist())
    for unit in addressed:
        if unit in programmed:
            yield from (Fault(Family.NUMBERING, unit, way) for way in (1, -1))
            yield Fault(Family.OMITTED, unit, PROGRAMS)
        if unit in controlled:
            yield Fault(Family.OMITTED, unit, CONTROLS)
        own = int(meant.channels[unit])
        yield from (Fault(Family.CHANNEL, unit, one) for one in range(16) if one != own)
        yield from (Fault(Family.SWAPPED, unit, other) for other in addressed if other > unit)
    moves = np.unique(np.stack((rows.unit, whole(rows.first)))[:, rows.travel], axis=1)
    yield from (Fault(Family.REVERSED, unit, number) for unit, number in moves.T.tolist())
    yield from (Fault(Family.FILTER, what) for what in (PROGRAMS, CONTROLS))
    for line in range(len(meant.lines)):
        if meant.cut[line].any():
            yield from (Fault(Family.SHUT, line, what) for what in (ALL, PROGRAMS, CONTROLS))
            if meant.own[line] >= 0:
                yield Fault(Family.SWALLOWED, line)


def choices(meant: Meant, listed: Iterable[Kin]) -> dict[Family, int]:
    """How many mistakes there are of each family, wrong control numbers among them."""
    rows = meant.rows
    controls = np.unique((rows.unit << FIRST_BITS | rows.first)[rows.kind == CONTROL])
    found = dict.fromkeys(Family, 0) | {kin.family: len(kin.faults) for kin in listed}
    return found | {Family.NUMBER: 127 * controls.size}


def read_off(
    meant: Meant, faults: tuple[Fault, ...], *, gone: Column, came: Column
) -> Iterator[Fault]:
    """Wrong control numbers, as the same value under another number shows them.

    `gone` are keys that should have been heard more often, `came` those that were. They are read
    where other mistakes have put the unit, which may be another's channel.
    """
    same = ~np.int64(FIRST_MOST << FIRST_AT)
    gone, came = (one[status_in(one) >> 4 == CONTROL] for one in (gone, came))
    gone = gone[np.isin(gone & same, came & same)]
    came = came[np.isin(came & same, gone & same)]
    rows, ours = meant.rows, channels_with(meant, faults)
    by_rest: dict[int, set[int]] = {}
    for key in came.tolist():
        by_rest.setdefault(int(key & same), set()).add(key >> FIRST_AT & FIRST_MOST)
    pairs: dict[tuple[int, int, int], int] = {}
    for key in gone.tolist():
        for number in by_rest.get(int(key & same), ()):
            pair = (key >> STATUS_AT & 0x0F, key >> FIRST_AT & FIRST_MOST, number)
            pairs[pair] = pairs.get(pair, 0) + 1
    often = sorted(pairs.items(), key=lambda one: -one[1])[:MOST_READ_OFF]
    for (channel, meant_number, number), _ in often:
        for unit in np.flatnonzero(ours == channel).tolist():
            if ((rows.unit == unit) & (rows.first == meant_number)).any():
                yield Fault(Family.NUMBER, unit, meant_number, number)
