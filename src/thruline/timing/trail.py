"""One message on its way, leg by leg: when it waits, when it is on the wire, byte by byte.

Read off the flows of the lines that were played; nothing is computed a second time.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from thruline.base.measures import BYTE_US
from thruline.path.hearing import Hearing
from thruline.path.links import Link
from thruline.path.network import Network as Wires
from thruline.rig.unit import Unit
from thruline.timing.flow import Flow
from thruline.timing.network import Copy, Feed, Way
from thruline.timing.play import play
from thruline.timing.roads import Roads
from thruline.timing.run import Hand
from thruline.timing.sending import Sending, ready_times
from thruline.timing.shares import traffic_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What a sending goes over: who hears whom, the lines, and who sends how."""

    wires: Wires
    hearing: Hearing
    roads: Roads
    controller: Unit
    hand: Hand


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """A message on one link. Times are us after the press.

    `queued_us` is when it was ready to leave; None on an electrical copy, which never waits.
    `byte_end_us` tells when each byte on the wire has ended; where `status_left_out`, the first of
    them is a data byte (running status).
    """

    link: Link
    queued_us: int | None
    start_us: int
    end_us: int
    byte_end_us: tuple[int, ...]
    status_left_out: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrival:
    """A message at a unit's input: its place in the sending, and the legs that brought it."""

    message: int
    unit: str
    legs: tuple[Leg, ...]

    @property
    def start_us(self) -> int:
        """When its first byte began."""
        return self.legs[-1].start_us

    @property
    def end_us(self) -> int:
        """When its last byte had ended."""
        return self.legs[-1].end_us


@dataclass(frozen=True, slots=True, kw_only=True)
class Trails:
    """A sending, played: the flow of every line, and when each message was handed over."""

    ground: Ground
    sending: Sending
    flows: tuple[Flow, ...]
    ready_us: tuple[int, ...]
    places: tuple[Mapping[int, tuple[int, ...]], ...]
    """For each line, and each message on it, where it stands in the flow."""


def play_sending(sending: Sending, ground: Ground) -> Trails:
    """Put a sending on the lines, with what full buffers lose."""
    hand, roads = ground.hand, ground.roads
    ready = ready_times(sending.items, gap_us=hand.gap_us, running_status=hand.running_status)
    flows: tuple[Flow, ...] = ()
    if roads.starts:
        flows = play(roads.network, traffic_of(roads, sending.items, ready))
    return Trails(
        ground=ground,
        sending=sending,
        flows=flows,
        ready_us=tuple(ready),
        places=tuple(_places(flow.ident.tolist()) for flow in flows),
    )


def arrivals_at(trails: Trails, unit: str) -> tuple[Arrival, ...]:
    """Every message that reaches a unit, whether for it or not, in the order of arrival."""
    found = [
        Arrival(message=message, unit=unit, legs=legs_to(trails, link, place))
        for link, line in _links_to(trails, unit)
        for message, places in trails.places[line].items()
        for place in places
    ]
    return tuple(sorted(found, key=lambda one: one.end_us))


def _links_to(trails: Trails, unit: str) -> Iterator[tuple[Link, int]]:
    """The links that end at a unit's inputs, each line once, with the line that feeds them."""
    wires, line_of = trails.ground.wires, trails.ground.roads.line_of
    seen: set[int] = set()
    for jack in wires.inputs_of(unit) if trails.flows else ():
        for link in wires.inputs[jack]:
            line = line_of.get(link.start)
            if link.carries and line is not None and line not in seen:
                seen.add(line)
                yield link, line


def legs_to(trails: Trails, link: Link, place: int) -> tuple[Leg, ...]:
    """The legs of the message that stands at `place` in the flow of a link's line, up to there."""
    legs = []
    onward: tuple[Link, int] | None = (link, place)
    while onward is not None:
        link, place = onward
        line = trails.ground.roads.line_of[link.start]
        legs.append(_leg(trails.flows[line], link, place))
        onward = _before(trails, line, place)
    return tuple(reversed(legs))


def lost_in_a_buffer(trails: Trails, message: int) -> Iterator[tuple[str, int, tuple[Leg, ...]]]:
    """Where a full buffer had no room for a message: the unit, the time, the legs to it."""
    for line, flow in enumerate(trails.flows):
        lost = () if flow.lost is None else zip(flow.lost.ident, flow.lost.at_us, strict=True)
        for ident, moment in lost:
            if ident == message:
                before = _source(trails, line, int(ident), queued=int(moment))
                legs = () if before is None else legs_to(trails, *before)
                yield trails.ground.wires.carriers[line].unit.id, int(moment), legs


def _leg(flow: Flow, link: Link, place: int) -> Leg:
    ends = flow.every_byte_end_us
    counts = flow.sent_bytes
    first = int(counts[:place].sum())
    queued = flow.queued_us
    return Leg(
        link=link,
        queued_us=None if queued is None else int(queued[place]),
        start_us=int(flow.start_us[place]),
        end_us=int(flow.end_us[place]),
        byte_end_us=tuple(ends[first : first + int(counts[place])].tolist()),
        status_left_out=flow.left_out is not None and bool(flow.left_out[place]),
    )


def _before(trails: Trails, line: int, place: int) -> tuple[Link, int] | None:
    """The link that a message came by before it left on a line; None where its way begins."""
    flow = trails.flows[line]
    message = int(flow.ident[place])
    what = trails.ground.roads.network.lines[line]
    if isinstance(what, Copy):
        return next(iter(_feeding(trails, line)))[0], place
    queued = flow.queued_us
    if queued is None or (
        what.sender is not None and int(queued[place]) == trails.ready_us[message]
    ):
        return None
    return _source(trails, line, message, queued=int(queued[place]))


def _source(trails: Trails, line: int, message: int, *, queued: int) -> tuple[Link, int] | None:
    """The link, and the place on it, of a message that an output had ready at a moment."""
    for link, feed in _feeding(trails, line):
        flow = trails.flows[feed.source]
        for place in trails.places[feed.source].get(message, ()):
            whole = feed.way is Way.WHOLE
            came = int(flow.end_us[place] if whole else flow.start_us[place] + BYTE_US)
            if came + feed.latency_us == queued:
                return link, place
    return None


def _feeding(trails: Trails, line: int) -> Iterator[tuple[Link, Feed]]:
    """The links that feed a line, as it was played."""
    line_of = trails.ground.roads.line_of
    links = [
        feed.link
        for feed in trails.ground.wires.carriers[line].feeds
        if feed.link.carries and not feed.cut and feed.source in line_of
    ]
    what = trails.ground.roads.network.lines[line]
    feeds = (Feed(source=what.source),) if isinstance(what, Copy) else what.feeds
    return iter(tuple(zip(links, feeds, strict=False)))


def _places(idents: Sequence[int]) -> Mapping[int, tuple[int, ...]]:
    found: dict[int, tuple[int, ...]] = {}
    for place, ident in enumerate(idents):
        found[ident] = (*found.get(ident, ()), place)
    return found
