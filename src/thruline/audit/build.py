"""What would be heard if certain mistakes were there: rows to keys, which can be counted."""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from thruline.audit.fault import ALL, CONTROLS, PROGRAMS, Family, Fault, in_order
from thruline.audit.meant import CONTROL, NO_KEY, PROGRAM, Column, Mask, Meant, Rows
from thruline.audit.travels import whole

Places = NDArray[np.intp]
FIRST_AT, STATUS_AT, TRAVEL_AT, TAP_AT, STEP_AT = 14, 31, 39, 40, 46
"""The lowest bit of each part of a key; the second number is lowest."""
FIRST_BITS = STATUS_AT - FIRST_AT
FIRST_MOST = (1 << FIRST_BITS) - 1
GONE = -1
"""In place of a step: what was meant for it is heard at none."""
KIND_OF_WHAT = {PROGRAMS: PROGRAM, CONTROLS: CONTROL}


@dataclass(slots=True, eq=False)
class _Work:
    """The rows of the plan, and what becomes of them; `alive` says what is heard at all."""

    rows: Rows
    step: Column
    channel: Column
    first: Column
    second: Column
    alive: Mask


def key_of(
    step: Column | int, tap: Column | int, *, travel: Column | int, kind: Column | int,
    channel: Column | int, numbers: tuple[Column | int, Column | int],
) -> Column | int:  # fmt: skip
    """One number for all that is counted as the same message at the same press."""
    first, second = numbers
    status = kind << 4 | channel
    place = step << 6 | tap
    return place << TAP_AT | travel << TRAVEL_AT | status << STATUS_AT | first << FIRST_AT | second


def parts_in(key: int) -> tuple[int, int, bool, int, int, int]:
    """Step, tap, whether a travel, status byte and both numbers of a key."""
    return (
        key >> STEP_AT, key >> TAP_AT & 0x3F, bool(key >> TRAVEL_AT & 1), key >> STATUS_AT & 0xFF,
        key >> FIRST_AT & FIRST_MOST, key & 0x3FFF,
    )  # fmt: skip


def status_in(keys: Column) -> Column:
    """The status byte in each key."""
    return keys >> STATUS_AT & 0xFF


def step_in(keys: Column) -> Column:
    """The step of each key."""
    return keys >> STEP_AT


def is_travel(keys: Column) -> Mask:
    """Which keys stand for a travel of a pedal."""
    found: Mask = keys >> TRAVEL_AT & 1 == 1
    return found


def head_in(keys: Column) -> Column:
    """The status byte and behind it the first number of each key, as one number."""
    return keys >> FIRST_AT & (1 << TRAVEL_AT - FIRST_AT) - 1


def parts_of_head(head: int) -> tuple[int, int]:
    """The inverse of `head_in`."""
    return head >> FIRST_BITS, head & FIRST_MOST


def build(
    meant: Meant, faults: Iterable[Fault], pressed: Mask, *, rows: Places | None = None
) -> Column:
    """The key of each row (or of some), NO_KEY where nothing is heard; in the order of the rows.

    `pressed` says which steps a person has done.
    """
    work = _begin(meant, rows)
    for fault in in_order(tuple(faults)):
        _apply(work, meant, fault)
    work.alive &= (work.step >= 0) & (work.step < len(meant.steps))
    work.alive &= pressed[np.where(work.alive, work.step, 0)]
    told = work.rows
    keys = key_of(
        work.step,
        told.tap,
        travel=told.travel.astype(np.int64),
        kind=told.kind,
        channel=work.channel,
        numbers=(work.first, work.second),
    )
    return np.where(work.alive, keys, NO_KEY)


def _begin(meant: Meant, places: Places | None) -> _Work:
    rows = meant.rows if places is None else meant.rows.at(places)
    return _Work(rows, rows.step, rows.channel, rows.first, rows.second, alive=~rows.old)


def _apply(work: _Work, meant: Meant, fault: Fault) -> None:
    """One mistake, at its place in the order."""
    match fault.family:
        case Family.STALE | Family.STALE_ALL:
            stale = _is_stale(meant, fault, work.step)
            work.alive = np.where(stale, work.rows.old, work.alive)
        case Family.SLOTS:
            _shift(work, meant, fault)
        case Family.NUMBERING | Family.NUMBER | Family.REVERSED:
            _renumber(work, fault)
        case Family.CHANNEL:
            work.channel = np.where(work.rows.unit == fault.first, fault.second, work.channel)
        case Family.SWAPPED:
            for unit, other in ((fault.first, fault.second), (fault.second, fault.first)):
                mine = work.rows.unit == unit
                work.channel = np.where(mine, meant.channels[other], work.channel)
        case _:
            work.alive = work.alive & ~_dropped(work, meant, fault)


def _is_stale(meant: Meant, fault: Fault, steps: Column) -> Mask:
    """Which steps are not written."""
    changed = meant.changed if fault.family is Family.STALE_ALL else (fault.first,)
    return np.isin(steps, changed)


def channels_with(meant: Meant, faults: Iterable[Fault]) -> Column:
    """The channel (0 to 15) on which each unit is addressed when some mistakes are there."""
    channels = meant.channels.copy()
    for fault in in_order(tuple(faults)):
        match fault.family:
            case Family.CHANNEL:
                channels[fault.first] = fault.second
            case Family.SWAPPED:
                channels[fault.first] = meant.channels[fault.second]
                channels[fault.second] = meant.channels[fault.first]
            case _:
                pass
    return channels


def _renumber(work: _Work, fault: Fault) -> None:
    """Mistakes in the numbers that a unit is sent."""
    mine = work.rows.unit == fault.first
    match fault.family:
        case Family.NUMBERING:
            moved = np.clip(work.first + fault.second, 0, 127)
            work.first = np.where(mine & (work.rows.kind == PROGRAM), moved, work.first)
        case Family.NUMBER:
            mine &= (work.rows.kind == CONTROL) & (work.first == fault.second)
            work.first = np.where(mine, fault.third, work.first)
        case _:
            mine &= work.rows.travel & (whole(work.first) == fault.second)
            turned = (work.second & 0x7F) << 7 | work.second >> 7
            work.second = np.where(mine, turned, work.second)


def _dropped(work: _Work, meant: Meant, fault: Fault) -> Mask:
    """What is not sent, or does not get to where one listens."""
    match fault.family:
        case Family.OMITTED:
            omitted: Mask = (work.rows.unit == fault.first) & _is_what(work, fault.second)
            return omitted
        case Family.FILTER:
            return _is_what(work, fault.first)
        case Family.SHUT:
            lost: Mask = meant.cut[fault.first, work.rows.tap, _status(work)]
            what: Mask = lost & _is_what(work, fault.second)
            return what
        case _:
            lost = meant.cut[fault.first, work.rows.tap, _status(work)]
            swallowed: Mask = lost & (work.channel == meant.own[fault.first])
            return swallowed


def _shift(work: _Work, meant: Meant, fault: Fault) -> None:
    """From a preset on, what was meant for it is heard one press later, or earlier."""
    is_preset, planned = work.rows.step < meant.presets, work.rows.step
    steps = moved_steps(
        work.step[is_preset],
        planned[is_preset],
        first=fault.first,
        way=fault.second,
        presets=meant.presets,
    )
    work.step = work.step.copy()
    work.step[is_preset] = steps
    work.alive = work.alive & (work.step != GONE)


def moved_steps(
    steps: Column, planned: Column, *, first: Column | int, way: Column | int, presets: int
) -> Column:
    """Where what is heard at some presets is heard with one shift more; GONE if nowhere.

    `planned` are the presets that it was meant for: it is by these that a shift goes from its first
    one on, however many there are.
    """
    moved = np.where(planned >= first, steps + way, steps)
    gone = (steps == GONE) | (moved < 0) | (moved >= presets)
    taken_out = (np.asarray(way) < 0) & (planned == first)
    return np.where(gone | taken_out, GONE, moved)


def _status(work: _Work) -> Column:
    status: Column = np.minimum(0xFF, work.rows.kind << 4 | work.channel)
    return status


def _is_what(work: _Work, what: int) -> Mask:
    """Which messages are of a kind: anything, program changes, control changes."""
    if what == ALL:
        return np.ones(work.rows.kind.size, np.bool_)
    kind: Mask = work.rows.kind == KIND_OF_WHAT[what]
    return kind


def touched(meant: Meant, fault: Fault) -> Places:
    """The rows that a mistake can change, whatever other mistakes there are."""
    rows = meant.rows
    match fault.family:
        case Family.STALE | Family.STALE_ALL:
            chosen = _is_stale(meant, fault, rows.step)
        case Family.SLOTS:
            chosen = (rows.step >= fault.first) & (rows.step < meant.presets)
        case Family.FILTER:
            chosen = rows.kind == KIND_OF_WHAT[fault.first]
        case Family.SHUT | Family.SWALLOWED:
            chosen = meant.cut[fault.first].any(axis=1)[rows.tap]
        case Family.SWAPPED:
            chosen = (rows.unit == fault.first) | (rows.unit == fault.second)
        case Family.NUMBERING:
            chosen = (rows.unit == fault.first) & (rows.kind == PROGRAM)
        case Family.NUMBER | Family.REVERSED:
            chosen = (rows.unit == fault.first) & (rows.kind == CONTROL)
        case Family.OMITTED:
            chosen = (rows.unit == fault.first) & (rows.kind == KIND_OF_WHAT[fault.second])
        case _:
            chosen = rows.unit == fault.first
    return np.flatnonzero(chosen)
