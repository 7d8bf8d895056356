"""The likeliest mistakes behind what was heard: a search over few mistakes at a time.

Every single mistake is weighed exactly and at once; then, from the best of them, every further one
on top, until nothing gets shorter. Mistakes whose effect nobody could tell apart are one answer.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

import numpy as np

from thruline.audit.build import (
    FIRST_AT,
    FIRST_MOST,
    STATUS_AT,
    Places,
    build,
    channels_with,
    status_in,
    touched,
)
from thruline.audit.fault import ALL, CONTROLS, PROGRAMS, Family, Fault, in_order
from thruline.audit.meant import CONTROL, NO_KEY, PROGRAM, Column, Mask, Meant
from thruline.audit.score import Counted, Fit, changed_fit, counted, fault_bits, fit
from thruline.audit.travels import whole

BEAM = 6
"""As many of the best are carried on to the next mistake."""
MOST_FAULTS = 3
"""More mistakes at once are not told apart any more by one capture."""
CHANGES_ALL = frozenset(
    {
        *(Family.CHANNEL, Family.SWAPPED, Family.NUMBERING, Family.OMITTED, Family.FILTER),
        Family.SLOTS,
    }
)
"""Families that change every row that they touch and is heard at all (or nearly so)."""
WORTH_BITS = 24.0
"""What is this much longer than the best is not worth a word: odds of one in sixteen million."""


@dataclass(frozen=True, slots=True, eq=False)
class Weighed:
    """Some mistakes, what they predict, and the length of the whole description."""

    faults: tuple[Fault, ...]
    bits: float
    fit: Fit


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """One answer: mistakes, its odds (0 to 1), and others that would have the same effect."""

    faults: tuple[Fault, ...]
    odds: float
    same: tuple[tuple[Fault, ...], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Explained:
    """All answers, the likeliest first, and how the best of them fits. No mistakes is an answer."""

    causes: tuple[Cause, ...]
    fit: Fit
    predicted: Counted
    heard: Counted


@dataclass(slots=True, eq=False)
class _Search:
    meant: Meant
    pressed: Mask
    heard: Counted
    listed: tuple[Fault, ...]
    choices: dict[Family, int]
    rows: dict[Fault, Places]
    all_rows: Mask
    known: dict[tuple[Fault, ...], Weighed] = field(default_factory=dict)


def explain(
    meant: Meant,
    heard_keys: Column,
    pressed: Mask,
    *,
    most: int = MOST_FAULTS,
    first: Callable[[Explained], None] | None = None,
) -> Explained:
    """The likeliest mistakes. `first` is told what single ones say, before the long search."""
    listed = tuple(every_fault(meant))
    search = _Search(
        meant=meant,
        pressed=pressed,
        heard=counted(heard_keys),
        listed=listed,
        choices=_choices(meant, listed),
        rows={fault: touched(meant, fault) for fault in listed},
        all_rows=np.ones(meant.rows.step.size, np.bool_),
    )
    best = _none(search)
    beam = [best]
    for depth in range(most):
        found = _further(search, beam)
        if depth == 0 and first is not None:
            first(_explained(search))
        if not found or found[0].bits >= best.bits:
            break
        best, beam = found[0], found
    return _explained(search)


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


def _choices(meant: Meant, listed: tuple[Fault, ...]) -> dict[Family, int]:
    """How many mistakes there are of each family."""
    rows = meant.rows
    plain = np.unique(np.stack((rows.unit, rows.first))[:, rows.kind == CONTROL], axis=1)
    found = dict.fromkeys(Family, 0)
    for fault in listed:
        found[fault.family] += 1
    return found | {Family.NUMBER: 127 * plain.shape[1]}


def _none(search: _Search) -> Weighed:
    predicted = counted(build(search.meant, (), search.pressed))
    fitted = fit(predicted, search.heard)
    found = Weighed((), fitted.bits, fitted)
    search.known[()] = found
    return found


def _further(search: _Search, beam: list[Weighed]) -> list[Weighed]:
    """The best with one mistake more than those in the beam."""
    found: dict[tuple[Fault, ...], Weighed] = {}
    for one in beam:
        for weighed in _on_top(search, one):
            found[weighed.faults] = weighed
    search.known |= found
    return sorted(found.values(), key=_bits)[:BEAM]


def _bits(weighed: Weighed) -> float:
    return weighed.bits


def _on_top(search: _Search, one: Weighed) -> Iterator[Weighed]:
    """Some mistakes with each further one on top, weighed by what that changes."""
    meant, pressed = search.meant, search.pressed
    keys = build(meant, one.faults, pressed)
    predicted = counted(keys)
    own_bits = one.bits - one.fit.bits
    lacking = _lacking(search, keys, predicted)
    for fault in (*search.listed, *_read_off(search, predicted, one.faults)):
        if fault in one.faults:
            continue
        rows = search.rows.get(fault)
        if rows is None:
            rows = search.rows[fault] = touched(meant, fault)
        if fault.family in CHANGES_ALL and _is_hopeless(
            search.all_rows[: rows.size], lacking[rows]
        ):
            continue
        new = build(meant, (*one.faults, fault), pressed, rows=rows)
        differs = new != keys[rows]
        if _is_hopeless(differs, lacking[rows]):
            continue
        fitted = changed_fit(
            one.fit, predicted, search.heard, gone=keys[rows][differs], new=new[differs]
        )
        bits = own_bits + fault_bits(fault, search.choices) + fitted.bits
        yield Weighed(in_order((*one.faults, fault)), bits, fitted)


def _lacking(search: _Search, keys: Column, predicted: Counted) -> Mask:
    """Which rows are predicted to be heard, and were not; or are not predicted at all."""
    lacking: Mask = (keys == NO_KEY) | (predicted.of(keys) > search.heard.of(keys))
    return lacking


def _is_hopeless(differs: Mask, lacking: Mask) -> bool:
    """Whether a mistake changes nothing, or far more of what was heard as it should be than not.

    Each message that it makes unforeseen costs more than half of what one that it explains can
    save, so twice as many and a few more can never be made good.
    """
    changed = int(differs.sum())
    helps = int((differs & lacking).sum())
    return helps == 0 or changed - helps > 2 * helps + 4


def _read_off(search: _Search, predicted: Counted, faults: tuple[Fault, ...]) -> Iterator[Fault]:
    """Wrong control numbers, as the same value under another number shows them.

    They are read where other mistakes have put the unit, which may be another's channel.
    """
    gone = predicted.keys[predicted.counts > search.heard.of(predicted.keys)]
    came = search.heard.keys[search.heard.counts > predicted.of(search.heard.keys)]
    gone, came = (one[status_in(one) >> 4 == CONTROL] for one in (gone, came))
    same = ~np.int64(FIRST_MOST << FIRST_AT)
    rows, ours = search.meant.rows, channels_with(search.meant, faults)
    by_rest: dict[int, set[int]] = {}
    for key in came.tolist():
        by_rest.setdefault(int(key & same), set()).add(key >> FIRST_AT & FIRST_MOST)
    pairs: dict[tuple[int, int, int], int] = {}
    for key in gone.tolist():
        for number in by_rest.get(int(key & same), ()):
            pair = (key >> STATUS_AT & 0x0F, key >> FIRST_AT & FIRST_MOST, number)
            pairs[pair] = pairs.get(pair, 0) + 1
    for (channel, meant_number, number), _ in sorted(pairs.items(), key=lambda one: -one[1])[:32]:
        for unit in np.flatnonzero(ours == channel).tolist():
            if ((rows.unit == unit) & (rows.first == meant_number)).any():
                yield Fault(Family.NUMBER, unit, meant_number, number)


def _explained(search: _Search) -> Explained:
    """Everything that was weighed as answers with odds, equal effects put together."""
    ranked = sorted(search.known.values(), key=_bits)
    best = ranked[0]
    worth = [one for one in ranked if one.bits - best.bits <= WORTH_BITS]
    groups: dict[bytes, list[Weighed]] = {}
    for one in worth[:60]:
        keys = build(search.meant, one.faults, search.pressed)
        groups.setdefault(np.sort(keys[keys != NO_KEY]).tobytes(), []).append(one)
    weights = [sum(2.0 ** (best.bits - one.bits) for one in group) for group in groups.values()]
    causes = [
        Cause(
            faults=group[0].faults,
            odds=weight / sum(weights),
            same=tuple(one.faults for one in group[1:] if len(one.faults) <= len(group[0].faults)),
        )
        for group, weight in zip(groups.values(), weights, strict=True)
    ]
    causes.sort(key=lambda cause: -cause.odds)
    top = search.known[causes[0].faults]
    return Explained(
        causes=tuple(causes),
        fit=top.fit,
        predicted=counted(build(search.meant, top.faults, search.pressed)),
        heard=search.heard,
    )
