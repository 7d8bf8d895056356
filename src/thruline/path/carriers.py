"""MIDI outputs: what each is set to do, and which links feed it."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from thruline.path.filters import NOTHING, Filter
from thruline.path.links import Link
from thruline.rig.cable import Jack
from thruline.rig.chart import Output, Traffic, Way
from thruline.rig.socket import Socket, SocketKind
from thruline.rig.unit import Unit, way_of


@dataclass(frozen=True, slots=True)
class Feed:
    """A link that brings messages to an input, from where an output passes them on.

    `cut` marks the place where a ring is cut to put the outputs in order: messages that come along
    this link have gone round.
    """

    link: Link
    cut: bool = False

    @property
    def input(self) -> Jack:
        """The input that it ends in."""
        return self.link.stop

    @property
    def source(self) -> Jack:
        """The output that it comes from."""
        return self.link.start


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrier:
    """One MIDI output of one unit, as it is set.

    `way` is None when it cannot be told; `forwards` and `sends_own` are None only where the ways
    that the output can be set to differ in it. `feeds` are the links that may carry something to
    the inputs which the output passes on, in the order of the sockets; empty when it passes nothing
    on. `holds_back` is what it surely does not pass on, `may_hold_back` that and what cannot be
    told; neither is about its own messages.
    """

    jack: Jack
    unit: Unit
    output: Output
    way: Way | None
    forwards: bool | None
    sends_own: bool | None
    holds_back: Filter
    may_hold_back: Filter
    feeds: tuple[Feed, ...]

    def passes(self, status: int) -> bool | None:
        """Whether it passes on a message with this status byte; None when it cannot be told."""
        if self.forwards is False or self.holds_back.stops(status):
            return False
        return None if self.may_hold_back.may_stop(status) else self.forwards


@dataclass(frozen=True, slots=True)
class Hop:
    """One leg of a way: out of `link.start`, which is set to `way`, and along the link."""

    link: Link
    way: Way | None


def midi_inputs(units: Mapping[str, Unit]) -> tuple[Jack, ...]:
    """Every socket that takes MIDI, in the order of the document."""
    takes = (SocketKind.MIDI_IN, SocketKind.USB)
    return tuple(
        Jack(unit.id, socket.id)
        for unit in units.values()
        for socket in unit.chart.sockets.values()
        if socket.kind in takes
    )


def read_carriers(
    units: Mapping[str, Unit], arriving: Mapping[Jack, tuple[Link, ...]]
) -> tuple[Carrier, ...]:
    """Every MIDI output, in the order of the document, with the links that feed it.

    `arriving` gives for each input the links that end there. A USB socket is an output only if its
    chart describes one.
    """
    return tuple(
        _carrier(unit, socket, arriving)
        for unit in units.values()
        for socket in unit.chart.sockets.values()
        if socket.kind is SocketKind.MIDI_OUT
        or (socket.kind is SocketKind.USB and socket.id in unit.chart.outputs)
    )


def _carrier(unit: Unit, socket: Socket, arriving: Mapping[Jack, tuple[Link, ...]]) -> Carrier:
    output = unit.chart.outputs.get(socket.id) or _unknown(unit, socket)
    way = way_of(unit, socket.id)
    ways = output.ways if way is None else (way,)
    forwards = _agreed(one.forwards for one in ways)
    most = _filter(unit, output) if output.blocks and forwards is not False else NOTHING
    return Carrier(
        jack=Jack(unit.id, socket.id),
        unit=unit,
        output=output,
        way=way,
        forwards=forwards,
        sends_own=_agreed(one in (Way.OWN, Way.MERGE) for one in ways),
        holds_back=NOTHING if Way.THRU_WIRE in ways else most,
        may_hold_back=NOTHING if way is Way.THRU_WIRE else most,
        feeds=_feeds(unit, output, arriving) if forwards is not False else (),
    )


def _unknown(unit: Unit, socket: Socket) -> Output:
    """An output that the chart does not describe: it may do anything."""
    inputs = (jack.socket for jack in midi_inputs({unit.id: unit}))
    return Output(
        socket=socket.id,
        ways=tuple(Way),
        sources=tuple(one for one in inputs if one != socket.id),
        latency_us=None,
        by_byte=False,
        blocks=frozenset(),
        buffer_bytes=None,
        skew_ns=None,
        running_status=None,
    )


def _agreed(answers: Iterable[bool]) -> bool | None:
    """The answer if all give the same, else None."""
    different = set(answers)
    return different.pop() if len(different) == 1 else None


def _filter(unit: Unit, output: Output) -> Filter:
    """What an output holds back, with the own channel by its number where that is known.

    An electrical copy holds nothing back, whatever its chart says.
    """
    if Traffic.OWN_CHANNEL not in output.blocks or not unit.channels:
        return Filter(output.blocks)
    return Filter(output.blocks - {Traffic.OWN_CHANNEL}, frozenset(unit.channels))


def _feeds(
    unit: Unit, output: Output, arriving: Mapping[Jack, tuple[Link, ...]]
) -> tuple[Feed, ...]:
    return tuple(
        Feed(link)
        for socket in unit.chart.sockets
        if socket in output.sources
        for link in arriving.get(Jack(unit.id, socket), ())
        if link.carries is not False
    )
