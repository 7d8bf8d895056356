"""One message on its way through the rig: where it comes by, and what becomes of it there."""

from collections import deque
from collections.abc import Sequence
from dataclasses import dataclass

from thruline.base.errors import CannotUse
from thruline.path.carriers import Carrier, Hop
from thruline.path.network import Network
from thruline.path.outcome import Outcome, Quality
from thruline.path.taking import taken, why_taken
from thruline.rig.cable import Jack

MOST_STEPS = 2048
"""Outputs that a message is followed out of; only in rigs with many rings are there more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """What becomes of a message at one place.

    `jack` is the input that it reaches, or the output or the far end of the link where it does not
    get on. `hops` lead there from the source. `certain` is False when it cannot be told whether the
    message comes here at all.
    """

    jack: Jack
    outcome: Outcome
    why: str
    hops: tuple[Hop, ...]
    certain: bool

    @property
    def unit(self) -> str:
        """The unit at which it happens."""
        return self.jack.unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Journey:
    """All places that a message comes by, the nearest first; a unit reached twice has two.

    `complete` is False when it was not followed to all ends (see `MOST_STEPS`).
    """

    source: Jack
    status: int
    stops: tuple[Stop, ...]
    complete: bool

    def at(self, unit: str) -> tuple[Stop, ...]:
        """What becomes of it at a unit."""
        return tuple(stop for stop in self.stops if stop.unit == unit)

    def ending(self, quality: Quality) -> tuple[Stop, ...]:
        """The places where it ends well, or badly, or nobody can tell."""
        return tuple(stop for stop in self.stops if stop.outcome.quality is quality)


@dataclass(frozen=True, slots=True)
class _Front:
    """How far a message has come: to an output, and past those in `passed`."""

    carrier: Carrier
    hops: tuple[Hop, ...]
    passed: frozenset[Jack]
    certain: bool


def follow(network: Network, source: Jack, message: Sequence[int]) -> Journey:
    """Follow a message that a unit sends of its own out of the output `source`.

    `message` is its bytes, of which only the status is looked at. Raises CannotUse when it does not
    begin with a status byte or `source` is no MIDI output.
    """
    if not message or not 0x80 <= message[0] <= 0xFF:
        raise CannotUse("a message begins with a status byte, 80 to FF in hexadecimal")
    if source not in network.outputs:
        raise CannotUse(f"{source} is no MIDI output of this rig")
    stops, waiting = _begin(network.outputs[source])
    steps = 0
    while waiting and steps < MOST_STEPS:
        steps += 1
        front = waiting.popleft()
        for hop in _leaving(network, front.carrier):
            stops += _on_link(front, hop)
            if hop.link.carries is not False:
                here, onward = _at_unit(network, front, hop, status=message[0])
                stops += here
                waiting += onward
    return Journey(source=source, status=message[0], stops=tuple(stops), complete=not waiting)


def _begin(carrier: Carrier) -> tuple[list[Stop], deque[_Front]]:
    """At the source: an output that does not send its unit's own messages ends it all."""
    sure = carrier.sends_own is True
    front = _Front(carrier, (), frozenset({carrier.jack}), sure)
    if sure:
        return [], deque([front])
    outcome = Outcome.WAY_UNTOLD if carrier.sends_own is None else Outcome.NOT_SENT
    stop = Stop(jack=carrier.jack, outcome=outcome, why=set_to(carrier), hops=(), certain=True)
    return [stop], deque([front] if carrier.sends_own is None else [])


def _leaving(network: Network, carrier: Carrier) -> tuple[Hop, ...]:
    return tuple(Hop(link, carrier.way) for link in network.leaving.get(carrier.jack, ()))


def _on_link(front: _Front, hop: Hop) -> list[Stop]:
    """Where a link does not carry it, or may not."""
    if hop.link.carries is True:
        return []
    outcome = Outcome.LOST if hop.link.carries is False else Outcome.LINK_UNTOLD
    return [
        Stop(
            jack=hop.link.stop,
            outcome=outcome,
            why=hop.link.why,
            hops=(*front.hops, hop),
            certain=front.certain,
        )
    ]


def _at_unit(
    network: Network, front: _Front, hop: Hop, *, status: int
) -> tuple[list[Stop], list[_Front]]:
    """What the unit at the end of a link makes of it, and the outputs by which it goes on.

    Outputs that do not pass on this input, or into which nothing is plugged, are not told of.
    """
    jack, hops = hop.link.stop, (*front.hops, hop)
    certain = front.certain and hop.link.carries is True
    unit = network.units[jack.unit]
    outcome = taken(unit, status)
    why = why_taken(unit, outcome)
    stops = [Stop(jack=jack, outcome=outcome, why=why, hops=hops, certain=certain)]
    onward = []
    for carrier in network.outputs_of(jack.unit):
        if jack.socket not in carrier.output.sources or carrier.jack not in network.leaving:
            continue
        trouble = not_passed_on(carrier, status)
        surely_stopped = trouble is not None and trouble.quality is Quality.BAD
        if carrier.jack in front.passed and not surely_stopped:
            trouble = Outcome.GOES_ROUND
        if trouble is not None:
            why = why_not(carrier, trouble)
            stops.append(
                Stop(jack=carrier.jack, outcome=trouble, why=why, hops=hops, certain=certain)
            )
        if trouble is None or trouble.quality is Quality.CANNOT_TELL:
            passed = front.passed | {carrier.jack}
            onward.append(_Front(carrier, hops, passed, certain and trouble is None))
    return stops, onward


def not_passed_on(carrier: Carrier, status: int | None) -> Outcome | None:
    """Why an output does not pass a message on, or may not; None when it surely does.

    Without a status byte the filters are not looked at.
    """
    if carrier.forwards is False:
        return Outcome.NOT_PASSED_ON
    passes = carrier.forwards if status is None else carrier.passes(status)
    if passes is False:
        return Outcome.HELD_BACK
    if passes is None:
        return Outcome.WAY_UNTOLD if carrier.forwards is None else Outcome.FILTER_UNTOLD
    return None


def set_to(carrier: Carrier) -> str:
    """What an output is set to, as a sentence."""
    if carrier.way is None:
        ways = ", ".join(carrier.output.ways)
        return f"{carrier.jack} can be {ways}; which of them it is cannot be told"
    return f"{carrier.jack} is set to {carrier.way}"


def why_not(carrier: Carrier, outcome: Outcome) -> str:
    """Why an output does not pass a message on, as a sentence."""
    match outcome:
        case Outcome.HELD_BACK | Outcome.FILTER_UNTOLD:
            kinds = ", ".join(sorted(carrier.output.blocks))
            return f"{carrier.jack} holds back {kinds}"
        case Outcome.GOES_ROUND:
            return f"it has passed {carrier.jack} before"
        case Outcome.NOT_JOINED:
            sources = ", ".join(carrier.output.sources) or "no input"
            return f"{carrier.jack} passes on {sources} only"
        case _:
            return set_to(carrier)
