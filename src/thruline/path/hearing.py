"""Who hears whom: from each source of messages, the inputs that it reaches and the way there."""

from collections import deque
from collections.abc import Callable, Hashable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from itertools import islice
from typing import NamedTuple, TypeVar

from thruline.path.carriers import Carrier, Hop
from thruline.path.copies import FRESH, Copies
from thruline.path.filters import NOTHING, Filter
from thruline.path.network import Network
from thruline.rig.cable import Jack

MOST_ROUTES = 512
"""Routes that are followed from one output, the nearest first.

Only rigs with many rings or parallel ways have more: a line of 500 units has 500.
"""


class Heard(StrEnum):
    """Whether a unit hears another."""

    YES = "yes"
    NO = "no"
    CANNOT_TELL = "cannot-tell"


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """One way from an output that sends its own messages to an input.

    It passes no output twice. `blocks` is the traffic that is surely lost on the way, `may_block`
    that and what cannot be told. `copies` are the electrical copies since the last output that made
    the signal anew. `certain` is False when it cannot be told whether a link on it carries or an
    output on it sends or passes on.
    """

    source: Jack
    target: Jack
    hops: tuple[Hop, ...]
    blocks: Filter
    may_block: Filter
    copies: Copies
    certain: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Hearing:
    """All routes of a rig, in the order of the outputs and then of their length.

    `complete` is False when an output has more than `MOST_ROUTES`, the farthest of which are left
    out; then nothing is said not to be heard.
    """

    routes: tuple[Route, ...]
    complete: bool
    by_source: Mapping[str, tuple[Route, ...]]
    by_target: Mapping[str, tuple[Route, ...]]
    by_pair: Mapping[tuple[str, str], tuple[Route, ...]]

    def routes_to(self, unit: str) -> tuple[Route, ...]:
        """The routes that end at a unit."""
        return self.by_target.get(unit, ())

    def routes_from(self, unit: str) -> tuple[Route, ...]:
        """The routes of what a unit sends of its own."""
        return self.by_source.get(unit, ())

    def routes_between(self, source: str, target: str) -> tuple[Route, ...]:
        """The routes from one unit to another."""
        return self.by_pair.get((source, target), ())

    def hears(
        self, source: str, target: str, *, status: int | None = None, over: str | None = None
    ) -> Heard:
        """Whether what one unit sends reaches another: at all, or a message of this status byte.

        Over any of its outputs, or only over this one.
        """
        heard = Heard.NO if self.complete else Heard.CANNOT_TELL
        for route in self.routes_between(source, target):
            if over not in (None, route.source.socket):
                continue
            through = route.certain or None if status is None else gets_through(route, status)
            if through:
                return Heard.YES
            if through is None:
                heard = Heard.CANNOT_TELL
        return heard


def passes(route: Route, status: int) -> bool:
    """Whether a message with this status byte gets past all filters on the way, as far as known."""
    return not route.blocks.stops(status)


def gets_through(route: Route, status: int) -> bool | None:
    """Whether a message with this status byte arrives by a route; None when it cannot be told."""
    if route.blocks.stops(status):
        return False
    return None if not route.certain or route.may_block.may_stop(status) else True


def read_hearing(network: Network) -> Hearing:
    """Every route from every output that sends, or may send, messages of its own."""
    places = {carrier.jack: place for place, carrier in enumerate(network.carriers)}
    legs = [_legs(network, carrier, places) for carrier in network.carriers]
    routes: list[Route] = []
    complete = True
    for place, carrier in enumerate(network.carriers):
        if carrier.sends_own is not False:
            found = list(islice(_routes(network.carriers, place, legs), MOST_ROUTES + 1))
            complete = complete and len(found) <= MOST_ROUTES
            routes += found[:MOST_ROUTES]
    return Hearing(
        routes=tuple(routes),
        complete=complete,
        by_source=_grouped(routes, lambda route: route.source.unit),
        by_target=_grouped(routes, lambda route: route.target.unit),
        by_pair=_grouped(routes, lambda route: (route.source.unit, route.target.unit)),
    )


K = TypeVar("K", bound=Hashable)


def _grouped(routes: list[Route], key: Callable[[Route], K]) -> dict[K, tuple[Route, ...]]:
    groups: dict[K, list[Route]] = {}
    for route in routes:
        groups.setdefault(key(route), []).append(route)
    return {name: tuple(found) for name, found in groups.items()}


class _Leg(NamedTuple):
    """A link that may carry, and by their places the outputs that pass on what it brings."""

    hop: Hop
    certain: bool
    onward: tuple[int, ...]


class _Front(NamedTuple):
    """How far a route has come: about to leave an output, with those that it passed as bits."""

    place: int
    passed: int
    hops: tuple[Hop, ...]
    blocks: Filter
    may_block: Filter
    copies: Copies
    certain: bool


def _legs(network: Network, carrier: Carrier, places: Mapping[Jack, int]) -> tuple[_Leg, ...]:
    return tuple(
        _Leg(
            Hop(link, carrier.way),
            link.carries is True,
            tuple(places[output.jack] for output in network.onward[link.stop]),
        )
        for link in network.leaving.get(carrier.jack, ())
        if link.carries is not False
    )


def _routes(
    carriers: tuple[Carrier, ...], source: int, legs: list[tuple[_Leg, ...]]
) -> Iterator[Route]:
    """The routes of one output, the shortest first."""
    start = carriers[source]
    sure = start.sends_own is True
    waiting = deque([_Front(source, 1 << source, (), NOTHING, NOTHING, FRESH, sure)])
    while waiting:
        front = waiting.popleft()
        for hop, carries, onward in legs[front.place]:
            route = Route(
                source=start.jack,
                target=hop.link.stop,
                hops=(*front.hops, hop),
                blocks=front.blocks,
                may_block=front.may_block,
                copies=front.copies,
                certain=front.certain and carries,
            )
            yield route
            waiting.extend(
                _passed_on(route, carriers[place], place, passed=front.passed)
                for place in onward
                if not front.passed >> place & 1
            )


def _passed_on(route: Route, carrier: Carrier, place: int, *, passed: int) -> _Front:
    return _Front(
        place,
        passed | 1 << place,
        route.hops,
        route.blocks.with_(carrier.holds_back),
        route.may_block.with_(carrier.may_hold_back),
        route.copies.through(carrier),
        route.certain and carrier.forwards is True,
    )
