"""Several presses of one preset: the messages that they agree on, in order, with their pauses."""

from collections import Counter
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from thruline.base.measures import BYTE_US
from thruline.learn.parts import Message

PAUSE_LEAST_US = 1_500
"""A shorter wait is the controller's own time, or the computer's."""
OWN_MOST_US = 2_000
"""A controller's own time for one message is below this."""

Key = tuple[bytes, int]
"""A message, and which of its like it is in one press, from 0."""
Weigh = Callable[[bytes], float]
"""How plausible a message is by all else that was heard: above 0 rather yes, below rather no."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreed:
    """A message that a preset sends: heard in `count` of `presses`; `at_us` after the first.

    `is_sure` says that most presses agree on it.
    """

    data: bytes
    at_us: int
    count: int
    presses: int

    @property
    def is_sure(self) -> bool:
        """Whether at least two presses, and more than half of them, had it."""
        return self.count >= 2 and 2 * self.count > self.presses


def agree(presses: Sequence[Sequence[Message]], weigh: Weigh) -> tuple[Agreed, ...]:
    """The messages behind some presses of one preset, in the order in which they leave.

    More than half of them settle it. What half of them have (one of two, or the only one) is taken
    when it is plausible by itself, and no better stands in its place elsewhere.
    """
    keyed = [dict(_keyed(press)) for press in presses]
    counts = Counter(key for one in keyed for key in one)
    total = len(presses)
    chosen = {key for key, count in counts.items() if 2 * count > total and count > 1}
    for key in counts:
        is_open = key not in chosen and 2 * counts[key] >= total
        if is_open and weigh(key[0]) > 0 and not _has_rival(key, keyed, counts, weigh=weigh):
            chosen.add(key)
    times = _times(keyed, chosen)
    ordered = sorted(chosen, key=lambda key: (times[key], key))
    first_us = min(times.values(), default=0)
    return tuple(
        Agreed(data=key[0], at_us=times[key] - first_us, count=counts[key], presses=total)
        for key in ordered
    )


def _keyed(press: Sequence[Message]) -> Iterator[tuple[Key, int]]:
    seen = Counter[bytes]()
    for one in press:
        yield (one.data, seen[one.data]), one.at_us
        seen[one.data] += 1


def _has_rival(
    key: Key, keyed: Sequence[Mapping[Key, int]], counts: Mapping[Key, int], *, weigh: Weigh
) -> bool:
    """Whether another press has something else, and more plausible, in the place of a message.

    One that a damaged byte could have turned into the other, or the other into it.
    """
    mine = key[0]
    for one in keyed:
        if key in one:
            continue
        for other in one:
            theirs = other[0]
            alike = len(theirs) == len(mine) and differing(mine, theirs) == 1
            worth = (weigh(theirs), theirs), (weigh(mine), mine)
            if alike and counts[other] == counts[key] and worth[0] > worth[1]:
                return True
    return False


def differing(one: bytes, other: bytes) -> int:
    """How many bytes differ; all, when the lengths do."""
    if len(one) != len(other):
        return max(len(one), len(other))
    return sum(a != b for a, b in zip(one, other, strict=True))


def _times(keyed: Sequence[Mapping[Key, int]], chosen: set[Key]) -> dict[Key, int]:
    """When each message leaves: the median over the presses, laid one over the other."""
    if not keyed or not chosen:
        return {}
    model = max(keyed, key=lambda one: len(one.keys() & chosen))
    moved = []
    for one in keyed:
        both = one.keys() & model.keys() & chosen
        offset = round(median(one[key] - model[key] for key in both)) if both else 0
        moved.append({key: at_us - offset for key, at_us in one.items()})
    return {key: round(median(one[key] for one in moved if key in one)) for key in chosen}


def own_time(all_agreed: Sequence[Sequence[Agreed]], *, running_status: bool) -> int:
    """The controller's own time between two messages, us; 0 when nothing tells."""
    waits = [
        wait
        for agreed in all_agreed
        for wait in waits_between(agreed, running_status=running_status)
        if 0 <= wait < OWN_MOST_US
    ]
    return round(median(waits)) if waits else 0


def waits_between(agreed: Sequence[Agreed], *, running_status: bool) -> list[int]:
    """From the end of each message to the start of the next, us."""
    found = []
    for before, after in pairwise(agreed):
        short = running_status and before.data[0] == after.data[0] < 0xF0
        found.append(after.at_us - before.at_us - BYTE_US * (len(after.data) - short))
    return found


def pauses_before(
    agreed: Sequence[Agreed], *, own_us: int, running_status: bool, step_ms: int = 1
) -> list[int]:
    """The pause before each message in whole steps, ms; 0 where there is none."""
    found = [0][: len(agreed)]
    for wait in waits_between(agreed, running_status=running_status):
        extra = wait - own_us
        steps = round(extra / 1000 / step_ms) if extra >= PAUSE_LEAST_US else 0
        found.append(steps * step_ms)
    return found
