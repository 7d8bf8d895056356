"""Where a message goes round: outputs that pass on to each other until one has it again."""

from collections import deque
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial, reduce
from typing import TypeAlias

from thruline.path.carriers import Carrier, Hop
from thruline.path.filters import NOTHING, SAMPLES, Filter
from thruline.path.links import Link
from thruline.rig.cable import Jack
from thruline.rig.chart import Traffic


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A way that ends where it begins: the last hop's link feeds the first hop's output.

    `blocks` is what some output on it surely holds back, `circulates` the kinds of traffic that can
    go round for ever (on some channel at least) as far as is known. `certain` is False when it
    cannot be told whether a link on it carries or an output on it passes anything on.
    """

    hops: tuple[Hop, ...]
    blocks: Filter
    circulates: frozenset[Traffic]
    certain: bool


_Leg: TypeAlias = tuple[Carrier, Link, Carrier]
"""An output, the link after it, and an output that passes on what comes along that link."""
_Test: TypeAlias = Callable[[_Leg], bool]


def find_rings(carriers: tuple[Carrier, ...]) -> tuple[Ring, ...]:
    """The shortest ring through every leg that lies on one, each ring once.

    Where filters or doubts make a difference there are also the shortest rings for each kind of
    traffic that some output holds back, and the shortest without doubt; so that a ring is missed
    neither as a whole, nor for a kind of traffic, nor as a certain one. Each begins with the output
    of it that comes first in `carriers`.
    """
    legs = _trimmed(_legs(carriers))
    if not legs:
        return ()
    place = {carrier.jack: number for number, carrier in enumerate(carriers)}
    found: dict[tuple[Link, ...], Ring] = {}
    for test in _tests(legs):
        allowed = _trimmed([leg for leg in legs if test(leg)])
        onward: dict[Jack, list[_Leg]] = {}
        for leg in allowed:
            onward.setdefault(leg[0].jack, []).append(leg)
        for leg in allowed:
            way = _way_back(leg, onward)
            if way is not None:
                ring = _ring(way, place)
                found.setdefault(tuple(hop.link for hop in ring.hops), ring)
    return tuple(found.values())


def _legs(carriers: tuple[Carrier, ...]) -> list[_Leg]:
    by_jack = {carrier.jack: carrier for carrier in carriers if carrier.forwards is not False}
    return [
        (by_jack[feed.source], feed.link, carrier)
        for carrier in by_jack.values()
        for feed in carrier.feeds
        if feed.source in by_jack
    ]


def _trimmed(legs: list[_Leg]) -> list[_Leg]:
    """Without legs that cannot be on a ring, since nothing leads to them or on from them."""
    while True:
        begun = {leg[0].jack for leg in legs}
        ended = {leg[2].jack for leg in legs}
        kept = [leg for leg in legs if leg[0].jack in ended and leg[2].jack in begun]
        if len(kept) == len(legs):
            return legs
        legs = kept


def _tests(legs: list[_Leg]) -> Iterator[_Test]:
    """Which legs to look at: all, those without doubt, those that let a kind of message pass."""
    yield lambda _leg: True
    if not all(_sure(leg) for leg in legs):
        yield _sure
    filters = {leg[0].holds_back for leg in legs} - {NOTHING}
    for statuses in SAMPLES.values():
        for status in statuses:
            if any(held.stops(status) for held in filters):
                yield partial(_lets_pass, status)


def _lets_pass(status: int, leg: _Leg) -> bool:
    return not leg[0].holds_back.stops(status)


def _sure(leg: _Leg) -> bool:
    return leg[0].forwards is True and leg[1].carries is True


def _way_back(first: _Leg, onward: dict[Jack, list[_Leg]]) -> list[_Leg] | None:
    """The shortest ring that goes along a leg."""
    goal = first[0].jack
    came: dict[Jack, _Leg] = {first[2].jack: first}
    waiting = deque([first[2].jack])
    while waiting and goal not in came:
        for leg in onward.get(waiting.popleft(), ()):
            if leg[2].jack not in came:
                came[leg[2].jack] = leg
                waiting.append(leg[2].jack)
    if goal not in came:
        return None
    way = [came[goal]]
    while way[-1] is not first:
        way.append(came[way[-1][0].jack])
    return way[::-1]


def _ring(way: list[_Leg], place: dict[Jack, int]) -> Ring:
    first = min(range(len(way)), key=lambda index: place[way[index][0].jack])
    turned = way[first:] + way[:first]
    blocks = reduce(Filter.with_, (leg[0].holds_back for leg in turned), NOTHING)
    return Ring(
        hops=tuple(Hop(link, carrier.way) for carrier, link, _ in turned),
        blocks=blocks,
        circulates=_circulates(blocks),
        certain=all(_sure(leg) for leg in turned),
    )


def _circulates(blocks: Filter) -> frozenset[Traffic]:
    """The kinds that get through on some channel."""
    return frozenset(
        kind
        for kind, statuses in SAMPLES.items()
        if not all(blocks.stops(status) for status in statuses)
    )
