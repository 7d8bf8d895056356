"""Units as stations of a line, in the order in which the controller's messages reach them.

The controller is the first. Every unit stands below all units that feed it, branch after branch, in
the order of the sockets; behind a place where nothing gets through come the units that hear nothing
because of it.
"""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass

from thruline.path.network import Network
from thruline.rig.cable import Jack
from thruline.rig.unit import Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """One unit on the line.

    `above` is the place of the station that the line comes from, `output` the socket there; None
    for the controller, and for a unit that no cable leads to. `joins` are the places of further
    stations that feed it. `lane` counts from 0: the last branch of a unit goes straight on, those
    before it one lane further out. `line` counts the controller's outputs that lead anywhere, from
    0. `reached` is False where it cannot be told, too.
    """

    unit: str
    above: int | None
    output: Jack | None
    joins: tuple[int, ...]
    lane: int
    line: int
    reached: bool


_Ways = Mapping[str, tuple[tuple[str, Jack], ...]]
"""For each unit the units that a cable leads to, and from which of its sockets."""


def stations(
    network: Network, controller: Unit, *, also: Collection[str] = ()
) -> tuple[Station, ...]:
    """All units that the controller's messages reach or are meant to reach, by the cables.

    Units of `also` to which no cable leads stand at the end.
    """
    live = _live_ways(network, controller)
    reached = _reachable(live, controller.id)
    ways = {
        unit.id: _by_socket(unit, (*live.get(unit.id, ()), *_dead_ways(network, unit.id, reached)))
        for unit in network.units.values()
    }
    order, above = _walk(ways, controller.id)
    order += [unit for unit in network.units if unit in also and unit not in order]
    place = {unit: number for number, unit in enumerate(order)}
    lanes = _lanes(order, above)
    lines = _lines(order, above)
    return tuple(
        Station(
            unit=unit,
            above=place[above[unit][0]] if unit in above else None,
            output=above[unit][1] if unit in above else None,
            joins=_joins(unit, live, place=place, above=above),
            lane=lanes[unit],
            line=lines[unit],
            reached=unit in reached,
        )
        for unit in order
    )


def _live_ways(network: Network, controller: Unit) -> _Ways:
    """The links over which the controller's messages surely go."""
    live: set[Jack] = set()
    found: dict[str, list[tuple[str, Jack]]] = {}
    for carrier in network.carriers:
        fed = carrier.forwards is True and any(
            feed.link.carries is True and not feed.cut and feed.source in live
            for feed in carrier.feeds
        )
        if fed or (carrier.unit.id == controller.id and carrier.sends_own is True):
            live.add(carrier.jack)
    for unit in network.units:
        for carrier in network.outputs_of(unit):
            for link in network.leaving.get(carrier.jack, ()) if carrier.jack in live else ():
                if link.carries is True and link.stop in network.inputs:
                    found.setdefault(unit, []).append((link.stop.unit, carrier.jack))
    return {unit: tuple(ways) for unit, ways in found.items()}


def _dead_ways(network: Network, unit: str, reached: Collection[str]) -> Iterator[tuple[str, Jack]]:
    """Cables that lead to units which hear nothing, also those between wrong sockets."""
    for link in network.links:
        proper = link.start in network.outputs and link.stop in network.inputs
        if link.start.unit == unit and link.stop.unit not in reached:
            yield link.stop.unit, link.start
        elif not proper and link.stop.unit == unit and link.start.unit not in reached:
            yield link.start.unit, link.stop


def _by_socket(unit: Unit, ways: tuple[tuple[str, Jack], ...]) -> tuple[tuple[str, Jack], ...]:
    """Ways out of a unit in the order of its sockets."""
    place = {socket: number for number, socket in enumerate(unit.chart.sockets)}
    return tuple(sorted(ways, key=lambda way: place[way[1].socket]))


def _reachable(ways: _Ways, start: str) -> set[str]:
    found, waiting = {start}, [start]
    while waiting:
        for unit, _ in ways.get(waiting.pop(), ()):
            if unit not in found:
                found.add(unit)
                waiting.append(unit)
    return found


def _walk(ways: _Ways, start: str) -> tuple[list[str], dict[str, tuple[str, Jack]]]:
    """Units so that each comes after all that lead to it, and from where the walk came to each.

    Depth first, last branch first, told backwards: so every branch stays in one piece, and a unit
    fed by several comes below the last of them. Ways back in a ring do not count.
    """
    above: dict[str, tuple[str, Jack]] = {}
    seen, done = {start}, []
    open_now = [(start, iter(reversed(ways.get(start, ()))))]
    while open_now:
        here, rest = open_now[-1]
        onward = next(rest, None)
        if onward is None:
            done.append(open_now.pop()[0])
        elif onward[0] not in seen:
            seen.add(onward[0])
            above[onward[0]] = (here, onward[1])
            open_now.append((onward[0], iter(reversed(ways.get(onward[0], ())))))
    return done[::-1], above


def _lanes(order: list[str], above: Mapping[str, tuple[str, Jack]]) -> dict[str, int]:
    """The lane of each unit."""
    last = {above[unit][0]: unit for unit in order if unit in above}
    lanes: dict[str, int] = {}
    for unit in order:
        if unit not in above:
            lanes[unit] = 0
            continue
        parent = above[unit][0]
        lanes[unit] = lanes[parent] + (last[parent] != unit)
    return lanes


def _lines(order: list[str], above: Mapping[str, tuple[str, Jack]]) -> dict[str, int]:
    """Which of the controller's lines each unit is on."""
    lines: dict[str, int] = {}
    begun: dict[Jack, int] = {}
    for unit in order:
        if unit not in above:
            lines[unit] = 0
        elif above[unit][0] == order[0]:
            lines[unit] = begun.setdefault(above[unit][1], len(begun))
        else:
            lines[unit] = lines[above[unit][0]]
    return lines


def _joins(
    unit: str, live: _Ways, *, place: Mapping[str, int], above: Mapping[str, tuple[str, Jack]]
) -> tuple[int, ...]:
    """The stations further up that feed a unit as well."""
    tree = above[unit][0] if unit in above else None
    feeders = {one for one, ways in live.items() if any(to == unit for to, _ in ways)}
    return tuple(sorted(place[one] for one in feeders if one != tree and place[one] < place[unit]))
