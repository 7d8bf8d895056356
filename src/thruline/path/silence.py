"""Why one unit does not hear another: the first thing that stops messages, on every way there."""

from collections import deque
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from thruline.path.carriers import Carrier, Hop
from thruline.path.contacts import LinkState
from thruline.path.hearing import Heard, Hearing, gets_through
from thruline.path.journey import not_passed_on, why_not
from thruline.path.links import Link
from thruline.path.network import Network
from thruline.path.outcome import Outcome, Quality
from thruline.path.unplugged import Break, unplugged
from thruline.rig.cable import Jack


@dataclass(frozen=True, slots=True)
class _Obstacle:
    """A break, and where messages would be if it were not there.

    That is about to leave one of `outputs`, or just come in at one of `arrivals`. `design` marks an
    output that is not made to pass on this input: on the way only if there is no better one.
    """

    found: Break
    outputs: tuple[Jack, ...] = ()
    arrivals: tuple[Jack, ...] = ()
    design: bool = False


@dataclass(slots=True)
class _Walk:
    """Where messages get to, or may get to, by the shortest way; and what stops them there."""

    sent: dict[Jack, tuple[Hop, ...]] = field(default_factory=dict)
    arrived: dict[Jack, tuple[Hop, ...]] = field(default_factory=dict)
    obstacles: list[_Obstacle] = field(default_factory=list)


def why_silent(
    network: Network,
    hearing: Hearing,
    *,
    source: str,
    target: str,
    status: int | None = None,
    over: str | None = None,
) -> tuple[Break, ...]:
    """What keeps the messages of one unit from another; nothing when it surely hears them.

    With `over` only those count that leave the source by this output.
    With a status byte the filters on the way count as well, for this kind of message. When it
    cannot be told whether messages arrive, the breaks are the things that cannot be told. When no
    cable leads there, they name the inputs into which nothing is plugged.
    """
    if hearing.hears(source, target, status=status, over=over) is Heard.YES:
        return ()
    walk = _walk(network, source, status, over=over)
    reached = [walk.arrived[jack] for jack in network.inputs_of(target) if jack in walk.arrived]
    if reached:
        between = hearing.routes_between(source, target)
        routes = [r for r in between if over in (None, r.source.socket)]
        ways = [r.hops for r in routes if status is None or gets_through(r, status) is not False]
        return _once(_first_doubt(network, hops, status) for hops in ways or reached)
    for with_design in (False, True):
        found = _once(
            obstacle.found
            for obstacle in walk.obstacles
            if with_design >= obstacle.design
            and _leads(network, walk, obstacle, target=target, with_design=with_design)
        )
        if found:
            return found
    return unplugged(network, source, target, sent=walk.sent)


def _once(breaks: Iterable[Break | None]) -> tuple[Break, ...]:
    """Each once, in order, the way to it that came first."""
    kept: dict[tuple[Outcome, Jack | None, str | None], Break] = {}
    for one in breaks:
        if one is not None:
            kept.setdefault((one.outcome, one.jack, one.link.name if one.link else None), one)
    return tuple(kept.values())


def _walk(network: Network, source: str, status: int | None, *, over: str | None) -> _Walk:
    """Follow messages as far as they may come."""
    walk = _Walk()
    waiting: deque[Carrier] = deque()
    outputs = network.outputs_of(source)
    for carrier in (one for one in outputs if over in (None, one.jack.socket)):
        if carrier.sends_own is False:
            lost = _at_output(carrier, Outcome.NOT_SENT, ())
            walk.obstacles.append(_Obstacle(lost, outputs=(carrier.jack,)))
        else:
            walk.sent[carrier.jack] = ()
            waiting.append(carrier)
    _note_wrong(network, walk, source, ())
    while waiting:
        carrier = waiting.popleft()
        for link in network.leaving.get(carrier.jack, ()):
            hops = (*walk.sent[carrier.jack], Hop(link, carrier.way))
            if link.carries is False:
                if link.stop in network.inputs:
                    walk.obstacles.append(_Obstacle(_on_link(link, hops), arrivals=(link.stop,)))
            elif link.stop not in walk.arrived:
                walk.arrived[link.stop] = hops
                waiting += _go_on(network, walk, link.stop, status=status)
                _note_wrong(network, walk, link.stop.unit, hops)
    return walk


def _go_on(network: Network, walk: _Walk, jack: Jack, *, status: int | None) -> list[Carrier]:
    """The outputs that pass on, or may pass on, what has come in; notes those that do not."""
    hops, onward = walk.arrived[jack], []
    for carrier in network.outputs_of(jack.unit):
        if carrier.jack in walk.sent:
            continue
        design = jack.socket not in carrier.output.sources
        outcome = Outcome.NOT_JOINED if design else not_passed_on(carrier, status)
        if outcome is not None and outcome.quality is Quality.BAD:
            lost = _at_output(carrier, outcome, hops)
            walk.obstacles.append(_Obstacle(lost, outputs=(carrier.jack,), design=design))
        else:
            walk.sent[carrier.jack] = hops
            onward.append(carrier)
    return onward


def _note_wrong(network: Network, walk: _Walk, unit: str, hops: tuple[Hop, ...]) -> None:
    """Cables between wrong sockets of this unit and another, which were meant to lead there."""
    walk.obstacles += [
        _Obstacle(_on_link(link, hops), arrivals=(there,)) for link, there in _wrong(network, unit)
    ]


def _wrong(network: Network, unit: str) -> Iterator[tuple[Link, Jack]]:
    """Links at a unit that do not lead from an output to an input, each with its other end."""
    for link in network.links:
        proper = link.start in network.outputs and link.stop in network.inputs
        if proper or link.carries is not False or link.state is LinkState.LOOSE_END:
            continue
        if link.start.unit == unit:
            yield link, link.stop
        if link.stop.unit == unit:
            yield link, link.start


def _at_output(carrier: Carrier, outcome: Outcome, hops: tuple[Hop, ...]) -> Break:
    return Break(
        outcome=outcome,
        unit=carrier.unit.id,
        jack=carrier.jack,
        link=None,
        hops=hops,
        why=why_not(carrier, outcome),
    )


def _on_link(link: Link, hops: tuple[Hop, ...]) -> Break:
    outcome = Outcome.LOST if link.carries is False else Outcome.LINK_UNTOLD
    return Break(
        outcome=outcome, unit=link.stop.unit, jack=link.stop, link=link, hops=hops, why=link.why
    )


def _leads(
    network: Network, walk: _Walk, obstacle: _Obstacle, *, target: str, with_design: bool
) -> bool:
    """Whether messages could get from behind an obstacle to the target, whatever else is wrong.

    Outputs that they leave already do not count: from there it goes on without this obstacle.
    """
    tried = set(walk.sent)
    outputs, arrivals = [*obstacle.outputs], [*obstacle.arrivals]
    come = set(arrivals)
    while outputs or arrivals:
        if any(jack.unit == target for jack in arrivals):
            return True
        outputs += [out for jack in arrivals for out in _outputs(network, jack, with_design)]
        ends = [there for jack in arrivals for _, there in _wrong(network, jack.unit)]
        for output in outputs:
            if output not in tried:
                tried.add(output)
                ends += [link.stop for link in network.leaving.get(output, ())]
        arrivals = [jack for jack in dict.fromkeys(ends) if jack not in come]
        come.update(arrivals)
        outputs = []
    return False


def _outputs(network: Network, jack: Jack, with_design: bool) -> Iterator[Jack]:
    """The outputs that would pass on what comes in here; all, if it comes in by a wrong socket."""
    anyway = with_design or jack not in network.inputs
    for carrier in network.outputs_of(jack.unit):
        if anyway or jack.socket in carrier.output.sources:
            yield carrier.jack


def _first_doubt(network: Network, hops: tuple[Hop, ...], status: int | None) -> Break | None:
    """The first thing on a way that cannot be told."""
    for place, hop in enumerate(hops):
        carrier = network.outputs[hop.link.start]
        if place == 0:
            doubt = None if carrier.sends_own else Outcome.WAY_UNTOLD
        else:
            doubt = not_passed_on(carrier, status)
        if doubt is not None:
            return _at_output(carrier, doubt, hops[:place])
        if hop.link.carries is None:
            return _on_link(hop.link, hops[: place + 1])
    return None
