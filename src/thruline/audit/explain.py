"""The likeliest mistakes behind what was heard: a search over few mistakes at a time.

Every single mistake is weighed; then, from the best of them, every further one on top, until
nothing gets shorter. What can be no answer, by the most that one may hope for from it, is left out.
Mistakes whose effect nobody could tell apart are one answer.
"""

from bisect import insort
from collections import Counter, deque
from collections.abc import Callable, Hashable, Iterable, Iterator
from dataclasses import dataclass, field
from math import inf
from typing import NamedTuple

import numpy as np

from thruline.audit.build import build, touched
from thruline.audit.fault import Family, Fault, Place, in_order, place_of
from thruline.audit.ground import Ground, ground
from thruline.audit.hopes import Hopes, is_lost
from thruline.audit.listed import Kin, choices, every_fault, kin_of, read_off
from thruline.audit.meant import NO_KEY, Column, Mask, Meant
from thruline.audit.score import Counted, Fit, changed_fit, counted, fault_bits

BEAM = 6
"""As many of the best are carried on to the next mistake."""
MOST_FAULTS = 3
"""More mistakes at once are not told apart any more by one capture."""
WORTH_BITS = 24.0
"""What is this much longer than the best is not worth a word: odds of one in sixteen million."""
SLACK_BITS = 1e-6
"""What rounding may make of a sum of bits that is added up in another order."""
MOST_WORTH = 60
"""Of all that is worth a word, as many of the best are put together."""


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


class _Try(NamedTuple):
    """A mistake to try on top of others, and the fewest bits that all of them can come to."""

    bits: float
    ground: Ground
    fault: Fault


@dataclass(slots=True, eq=False)
class _Search:
    meant: Meant
    pressed: Mask
    heard: Counted
    listed: tuple[Kin, ...]
    prices: dict[Family, float]
    known: dict[tuple[Fault, ...], Weighed] = field(default_factory=dict)
    least: float = inf

    def hold(self, faults: tuple[Fault, ...]) -> Ground:
        """Mistakes held against what was heard."""
        return ground(self.meant, faults, pressed=self.pressed, heard=self.heard)

    def price(self, faults: tuple[Fault, ...]) -> float:
        """The bits that it takes to name mistakes, which stand in order."""
        return sum(self.prices[one.family] for one in faults)

    def keep(self, faults: tuple[Fault, ...], fit: Fit) -> Weighed:
        """Weigh mistakes, which stand in order."""
        found = self.known[faults] = Weighed(faults, self.price(faults) + fit.bits, fit)
        self.least = min(self.least, found.bits)
        return found


def explain(meant: Meant, heard_keys: Column, pressed: Mask) -> Explained:
    """The likeliest mistakes behind the keys heard at the steps that were pressed."""
    listed = kin_of(every_fault(meant))
    prices = {family: fault_bits(family, count) for family, count in choices(meant, listed).items()}
    search = _Search(meant, pressed, counted(heard_keys), listed, prices)
    grounds = [search.hold(())]
    search.keep((), grounds[0].fit)
    for count in range(1, MOST_FAULTS + 1):
        before, layer = search.least, _Layer(search, grounds)
        layer.weigh(lambda: search.least + WORTH_BITS)
        if count == MOST_FAULTS or search.least >= before:
            break
        layer.weigh(layer.last_carried)
        grounds = [search.hold(one.faults) for one in layer.carried()]
    return _explained(search)


class _Layer:
    """Mistakes with one more on top of them, the most hopeful weighed first."""

    def __init__(self, search: _Search, grounds: Iterable[Ground]) -> None:
        self._search = search
        tries = [one for each in grounds for one in _tries(search, each)]
        self._left = deque(sorted(tries, key=_bits))
        self._found: list[Weighed] = []

    def weigh(self, worth: Callable[[], float]) -> None:
        """Weigh all that can come to so few bits, which gets fewer as better ones are found."""
        while self._left and self._left[0].bits <= worth():
            found = _weighed(self._search, self._left.popleft())
            if found is not None:
                insort(self._found, found, key=_rank)

    def carried(self) -> list[Weighed]:
        """The best of what was weighed."""
        return self._found[:BEAM]

    def last_carried(self) -> float:
        """The bits of the last of the best."""
        return self._found[BEAM - 1].bits if len(self._found) >= BEAM else inf


def _bits(one: _Try) -> float:
    return one.bits


def _rank(weighed: Weighed) -> tuple[float, tuple[Place, ...]]:
    """The shortest first; what is as long comes in the order in which it acts."""
    return weighed.bits, tuple(place_of(one) for one in weighed.faults)


def _tries(search: _Search, held: Ground) -> Iterator[_Try]:
    """What there is to try on top of some mistakes."""
    hopes, faults = Hopes(held), held.faults
    price = search.price(faults) - SLACK_BITS
    shown = read_off(search.meant, faults, gone=held.gone, came=held.came.keys)
    for kin in (*search.listed, *kin_of(shown)):
        for fault, best in hopes.bests(kin):
            if fault not in faults:
                yield _Try(price + search.prices[kin.family] + best.bits, held, fault)


def _weighed(search: _Search, one: _Try) -> Weighed | None:
    """A mistake weighed on top of others by what it changes; None when that is no good."""
    held, fault = one.ground, one.fault
    faults = in_order((*held.faults, fault))
    if faults in search.known:
        return None
    rows = touched(search.meant, fault)
    keys = held.keys[rows]
    new = build(search.meant, faults, search.pressed, rows=rows)
    differs = new != keys
    helps = int((differs & held.lacking[rows]).sum())
    if is_lost(helps, int(differs.sum()) - helps):
        return None
    fitted = changed_fit(
        held.fit, held.predicted, search.heard, gone=keys[differs], new=new[differs]
    )
    return search.keep(faults, fitted)


def _explained(search: _Search) -> Explained:
    """Everything that was weighed as answers with odds, equal effects put together."""
    ranked = sorted(search.known.values(), key=_rank)
    best = ranked[0]
    worth = [one for one in ranked if one.bits - best.bits <= WORTH_BITS][:MOST_WORTH]
    groups: dict[Hashable, list[Weighed]] = {}
    often = Counter(one.fit for one in worth)
    for one in worth:
        effect = _effect(search, one.faults) if often[one.fit] > 1 else one.fit
        groups.setdefault(effect, []).append(one)
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


def _effect(search: _Search, faults: tuple[Fault, ...]) -> bytes:
    """What one would hear."""
    keys = build(search.meant, faults, search.pressed)
    return np.sort(keys[keys != NO_KEY]).tobytes()
