"""Names of ports: equal ones told apart, changed ones known again.

Each system has its own ways. One puts numbers behind a name that are others at the next plugging
(`Treadle 24:0`), one its place in the list of that moment (`Treadle 1`), one gives two boxes of a
kind just the same name. What a person sees and says here is stable as far as that is possible.
"""

import re
from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

_NUMBERS = re.compile(r"(\s+\d+:\d+|\s+\(\d+\))$")


def bare_name(name: str) -> str:
    """A port's name without the numbers that are others at each plugging, or were put by us."""
    return _NUMBERS.sub("", name)


def equals_of(name: str, names: Sequence[str]) -> list[str]:
    """The ports that are called as this one, numbers apart, in their order."""
    return [one for one in names if bare_name(one) == bare_name(name)]


def without_places(names: Sequence[str]) -> list[str]:
    """Names behind which a system puts their places in the list (0, 1 ...), without these."""
    return [name.removesuffix(f" {place}") for place, name in enumerate(names)]


def told_apart(names: Sequence[str]) -> tuple[str, ...]:
    """Each name once: equal ones get (1), (2) ... in their order, and nobody else's number."""
    often, found = Counter(names), list[str]()
    for name in names:
        number, made = 0, name
        while often[name] > 1 and (made == name or made in found or made in often):
            number += 1
            made = f"{name} ({number})"
        found.append(made)
    return tuple(found)


class Known(NamedTuple):
    """What is remembered of a port, to know it again.

    `of` equal ones there were, it the one at `rank` (from 0); `stayed` are those that were still
    there when it had gone.
    """

    name: str
    rank: int = 0
    of: int = 1
    stayed: tuple[str, ...] = ()


def known_from(name: str, names: Sequence[str]) -> Known:
    """A port among those that are there as it is opened."""
    equals = equals_of(name, names)
    return Known(name, equals.index(name) if name in equals else 0, max(1, len(equals)))


def after_going(known: Known, names: Sequence[str]) -> Known:
    """The same once it has gone: who is there now was there beside it."""
    stayed = tuple(equals_of(known.name, names))
    return known._replace(stayed=stayed, of=max(known.of, len(stayed) + 1))


def known_again(known: Known, names: Sequence[str]) -> str | None:
    """The port under the name that it has now; None while it is not there, or cannot be told.

    Of several equal ones it is told only when as many are there again: else the one that is there
    might be its twin, and what is meant for one box would go to the other.
    """
    equals = equals_of(known.name, names)
    if len(equals) < known.of:
        return None
    if known.name in equals and known.name not in known.stayed:
        return known.name
    fresh = [one for one in equals if one not in known.stayed]
    if len(fresh) == 1:
        return fresh[0]
    return equals[known.rank] if len(equals) == known.of else None
