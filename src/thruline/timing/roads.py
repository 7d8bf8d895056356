"""A rig's MIDI outputs as lines to be played, and how far down them each unit is."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from types import MappingProxyType

from thruline.base.measures import BYTE_US
from thruline.path.carriers import Carrier
from thruline.path.filters import Filter
from thruline.path.makers import leaves_status_out
from thruline.path.network import Network as Wires
from thruline.path.routing import EVERYWHERE, Routing
from thruline.rig.cable import Jack
from thruline.rig.chart import Way as Set
from thruline.rig.unit import Unit
from thruline.timing.network import Copy, Feed, Line, Network, Output, Way, network
from thruline.timing.statuses import Statuses
from thruline.timing.travel import Travel

WIRE_DELAY_US = 3
"""From input to electrical copy: an opto-coupler and a gate, 1 to 5 us in the trade."""
LONGEST_USUAL = 3
"""Bytes of the longest channel message, by which ways of different kind are compared."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Roads:
    """Lines ready to be played.

    `line_of` finds the line of an output, `inputs` the lines that end at a unit's inputs, in the
    order of its sockets; `travels` holds, for units that the controller reaches, the quickest way.
    `starts` are the lines of the controller's own outputs. Where it chooses between them, each is a
    sender of its own, and `sender_of` tells which one the messages for a unit leave by.
    """

    network: Network
    line_of: Mapping[Jack, int]
    inputs: Mapping[str, tuple[int, ...]]
    travels: Mapping[str, Travel]
    starts: tuple[int, ...]
    sender_of: Mapping[str, int] = field(default_factory=lambda: MappingProxyType({}))
    senders: int = 1


def roads_of(wires: Wires, controller: Unit | None, routing: Routing = EVERYWHERE) -> Roads:
    """The lines that the links and outputs of a rig make.

    The controller is sender 0; one that chooses between its outputs is as many senders as it has.

    A link that may or may not work, and an output whose setting cannot be told, carry nothing here:
    the proof reports them as what cannot be told.
    """
    line_of = {carrier.jack: index for index, carrier in enumerate(wires.carriers)}
    places = {socket: place for place, socket in enumerate(routing.outputs)}
    lines = [
        _line(carrier, line_of, controller=controller, places=places) for carrier in wires.carriers
    ]
    inputs = {unit: _ends(wires, unit, line_of) for unit in wires.units}
    starts = tuple(
        index
        for index, line in enumerate(lines)
        if isinstance(line, Output) and line.sender is not None
    )
    sender_of = {unit: places[socket] for unit, socket in routing.over.items()}
    travels: dict[str, Travel] = {}
    for sender in range(max(1, len(places))):
        begins = tuple(one for one in starts if _sender(lines[one]) == sender)
        reached = _reached(lines, begins, sender)
        for unit, ends in inputs.items():
            ways = [reached[index] for index in ends if index in reached]
            if ways and sender_of.get(unit, sender) == sender:
                travels[unit] = min(ways, key=_usual)
    return Roads(
        network=network(lines),
        line_of=MappingProxyType(line_of),
        inputs=MappingProxyType(inputs),
        travels=MappingProxyType(travels),
        starts=starts,
        sender_of=MappingProxyType(sender_of),
        senders=max(1, len(places)),
    )


def _sender(line: Line) -> int | None:
    return line.sender if isinstance(line, Output) else None


def _line(
    carrier: Carrier,
    line_of: Mapping[Jack, int],
    *,
    controller: Unit | None,
    places: Mapping[str, int],
) -> Line:
    """One output as a line."""
    feeds = [
        feed
        for feed in carrier.feeds
        if feed.link.carries and not feed.cut and feed.source in line_of and carrier.forwards
    ]
    if carrier.way is Set.THRU_WIRE and feeds:
        return Copy(source=line_of[feeds[0].source], delay_us=WIRE_DELAY_US)
    output = carrier.output
    own = controller is not None and carrier.unit.id == controller.id and carrier.sends_own is True
    return Output(
        feeds=tuple(
            Feed(
                source=line_of[feed.source],
                latency_us=output.latency_us or 0,
                way=Way.BYTES if output.by_byte else Way.WHOLE,
                blocks=_statuses(carrier.holds_back),
            )
            for feed in feeds
        ),
        sender=places.get(carrier.jack.socket, 0) if own else None,
        running_status=leaves_status_out(carrier) is True and not (own and places),
        buffer_bytes=output.buffer_bytes,
        real_time_first=True,
    )


@lru_cache(maxsize=256)
def _statuses(holds_back: Filter) -> Statuses:
    return frozenset(status for status in range(0x80, 0x100) if holds_back.stops(status))


def _ends(wires: Wires, unit: str, line_of: Mapping[Jack, int]) -> tuple[int, ...]:
    """The lines that arrive at a unit's inputs over links that work."""
    links = (link for jack in wires.inputs_of(unit) for link in wires.inputs[jack])
    found = (line_of[link.start] for link in links if link.carries and link.start in line_of)
    return tuple(dict.fromkeys(found))


def _reached(lines: list[Line], starts: tuple[int, ...], sender: int) -> dict[int, Travel]:
    """The quickest way from the controller to every line that it reaches."""
    reached = dict.fromkeys(starts, Travel(sender=sender))
    for index in network(lines).in_order:
        ways = [reached[index]] if index in reached else []
        match lines[index]:
            case Copy(source=source, delay_us=delay):
                if source in reached:
                    ways.append(_further(reached[source], delay, whole=0))
            case Output(feeds=feeds):
                ways.extend(
                    _further(reached[feed.source], _fixed(feed), whole=int(feed.way is Way.WHOLE))
                    for feed in feeds
                    if feed.source in reached
                )
        if ways:
            reached[index] = min(ways, key=_usual)
    return reached


def _fixed(feed: Feed) -> int:
    return feed.latency_us + (BYTE_US if feed.way is Way.BYTES else 0)


def _further(travel: Travel, fixed_us: int, *, whole: int) -> Travel:
    return Travel(travel.fixed_us + fixed_us, travel.whole_hops + whole, travel.sender)


def _usual(travel: Travel) -> int:
    return travel.of(LONGEST_USUAL)
