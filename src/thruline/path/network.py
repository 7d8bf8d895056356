"""All links and outputs of a rig as one network, in the order in which messages pass them."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from heapq import heappop, heappush

from thruline.path.carriers import Carrier, Feed, midi_inputs, read_carriers
from thruline.path.links import Link, read_links
from thruline.path.rings import Ring, find_rings
from thruline.rig.cable import Jack
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig


@dataclass(frozen=True, slots=True, kw_only=True)
class Network:
    """Who can hear whom, as it is plugged and set.

    `carriers` stand in an order in which each comes after those that feed it, save for feeds that
    are marked `cut`. A ring is cut where messages come back to the output of it that they pass
    first, coming from the controller (from the first output in the document, where the controller
    does not reach it).

    `outputs` finds a carrier by its socket. `inputs` holds for every MIDI input the links that end
    there, good and bad; `leaving` for every socket the links that start there, good and bad;
    `onward` for every MIDI input the outputs that pass on what comes in (as far as can be told).
    """

    units: Mapping[str, Unit]
    links: tuple[Link, ...]
    carriers: tuple[Carrier, ...]
    outputs: Mapping[Jack, Carrier]
    inputs: Mapping[Jack, tuple[Link, ...]]
    leaving: Mapping[Jack, tuple[Link, ...]]
    onward: Mapping[Jack, tuple[Carrier, ...]]
    rings: tuple[Ring, ...]

    def outputs_of(self, unit: str) -> tuple[Carrier, ...]:
        """The MIDI outputs of a unit, in the order of its sockets."""
        sockets = self.units[unit].chart.sockets if unit in self.units else ()
        jacks = (Jack(unit, socket) for socket in sockets)
        return tuple(self.outputs[jack] for jack in jacks if jack in self.outputs)

    def inputs_of(self, unit: str) -> tuple[Jack, ...]:
        """The MIDI inputs of a unit, in the order of its sockets."""
        sockets = self.units[unit].chart.sockets if unit in self.units else ()
        jacks = (Jack(unit, socket) for socket in sockets)
        return tuple(jack for jack in jacks if jack in self.inputs)


def read_network(rig: Rig) -> Network:
    """The network that the cables and settings of a rig make."""
    links = read_links(rig)
    leaving: dict[Jack, list[Link]] = {}
    arriving: dict[Jack, list[Link]] = {jack: [] for jack in midi_inputs(rig.units)}
    for link in links:
        leaving.setdefault(link.start, []).append(link)
        if link.stop in arriving:
            arriving[link.stop].append(link)
    inputs = {jack: tuple(found) for jack, found in arriving.items()}
    carriers = in_order(read_carriers(rig.units, inputs), first=rig.controller)
    onward: dict[Jack, list[Carrier]] = {jack: [] for jack in inputs}
    for carrier in carriers:
        if carrier.forwards is not False:
            for socket in carrier.output.sources:
                if Jack(carrier.unit.id, socket) in onward:
                    onward[Jack(carrier.unit.id, socket)].append(carrier)
    return Network(
        units=rig.units,
        links=links,
        carriers=carriers,
        outputs={carrier.jack: carrier for carrier in carriers},
        inputs=inputs,
        leaving={jack: tuple(found) for jack, found in leaving.items()},
        onward={jack: tuple(found) for jack, found in onward.items()},
        rings=find_rings(carriers),
    )


def in_order(carriers: tuple[Carrier, ...], *, first: Unit | None = None) -> tuple[Carrier, ...]:
    """The carriers so that each comes after those that feed it, with rings cut.

    Among carriers that may stand in any order the earlier of `carriers` comes first. `first` is the
    unit from which messages are followed to see where they come back.
    """
    place = {carrier.jack: number for number, carrier in enumerate(carriers)}
    legs: list[list[_Leg]] = [[] for _ in carriers]
    for number, carrier in enumerate(carriers):
        for which, feed in enumerate(carrier.feeds):
            if feed.source in place:
                legs[place[feed.source]].append((number, which))
    begins = [number for number, one in enumerate(carriers) if first and one.unit.id == first.id]
    cut = _cuts(legs, begins)
    return tuple(_marked(carriers[number], number, cut) for number in _sorted(legs, cut))


_Leg = tuple[int, int]
"""A carrier by its number, and which of its feeds."""


def _cuts(legs: list[list[_Leg]], begins: list[int]) -> set[_Leg]:
    """The legs that lead back to where one is coming from, walking depth first."""
    cut: set[_Leg] = set()
    seen: set[int] = set()
    for begin in (*begins, *range(len(legs))):
        if begin in seen:
            continue
        seen.add(begin)
        open_now = {begin}
        walk = [(begin, iter(legs[begin]))]
        while walk:
            here, rest = walk[-1]
            leg = next(rest, None)
            if leg is None:
                walk.pop()
                open_now.discard(here)
            elif leg[0] in open_now:
                cut.add(leg)
            elif leg[0] not in seen:
                seen.add(leg[0])
                open_now.add(leg[0])
                walk.append((leg[0], iter(legs[leg[0]])))
    return cut


def _sorted(legs: list[list[_Leg]], cut: set[_Leg]) -> list[int]:
    """Carriers by number, each after those with a leg to it; the lower number first."""
    lacking = [0] * len(legs)
    for onward in legs:
        for leg in onward:
            lacking[leg[0]] += leg not in cut
    ready = [number for number, count in enumerate(lacking) if count == 0]
    ordered = []
    while ready:
        number = heappop(ready)
        ordered.append(number)
        for leg in legs[number]:
            if leg not in cut:
                lacking[leg[0]] -= 1
                if lacking[leg[0]] == 0:
                    heappush(ready, leg[0])
    return ordered


def _marked(carrier: Carrier, number: int, cut: set[_Leg]) -> Carrier:
    """The carrier with its cut feeds marked."""
    if not any((number, which) in cut for which in range(len(carrier.feeds))):
        return carrier
    feeds = tuple(
        Feed(feed.link, cut=(number, which) in cut) for which, feed in enumerate(carrier.feeds)
    )
    return replace(carrier, feeds=feeds)
