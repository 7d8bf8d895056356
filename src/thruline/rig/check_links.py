"""What a chart says about its sockets by name: outputs, bonds, outlets, loops, pedals."""

from collections.abc import Iterable, Iterator, Mapping

from thruline.base.address import Address, at
from thruline.document.chart_shape import (
    Bond,
    ChartShape,
    OutputShape,
    SocketShape,
)
from thruline.document.controller_shape import LoopShape
from thruline.document.power_shape import OutletShape
from thruline.rig.chart_problem import ChartProblem
from thruline.rig.nearest import nearest
from thruline.rig.socket import CONTACTS, SocketKind

Sockets = Mapping[str, SocketShape]
_IN = (SocketKind.MIDI_IN, SocketKind.USB)
_OUT = (SocketKind.MIDI_OUT, SocketKind.USB)


def look_at_links(document: ChartShape) -> Iterator[ChartProblem]:
    """Names of sockets that are not there, or of the wrong kind."""
    sockets = {one.id: one for one in document.socket}
    for output in document.output:
        yield from _output(output, sockets)
    for bond in document.bond:
        yield from _bond(bond, sockets)
    for outlet in document.outlet:
        address = at("outlet", outlet.socket)
        yield from named(address, outlet.socket, sockets, kinds=(SocketKind.POWER_OUT,))
        if outlet.feed == "ac" and outlet.polarity is not None:
            yield ChartProblem(
                address.child("polarity"), "alternating current has no polarity", "take it away"
            )
        yield from _choices(document, outlet, address)
    for pedal in document.pedal:
        address = at("pedal", pedal.socket)
        yield from named(address, pedal.socket, sockets, kinds=(SocketKind.EXPRESSION_IN,))
    yield from _loops(document, sockets)


def _choices(document: ChartShape, one: OutletShape, address: Address) -> Iterator[ChartProblem]:
    """Positions of the switch of an outlet: there is such a switch, and it has them."""
    switch = next(
        (
            setting
            for setting in document.setting
            if setting.governs == "outlet-voltage" and setting.socket in (None, one.socket)
        ),
        None,
    )
    if one.choice and switch is None:
        yield ChartProblem(
            address.child("choice"),
            f"no setting chooses the voltage of {one.socket}",
            f'add a [[setting]] with governs = "outlet-voltage" and socket = "{one.socket}"',
        )
        return
    values = [each.value for each in one.choice]
    for value in values:
        if switch is not None and value not in switch.values:
            yield ChartProblem(
                address.child("choice"),
                f'"{value}" is not one of the values of {switch.id}',
                f"spell it as there: {', '.join(switch.values)}",
            )
    if len(set(values)) < len(values):
        yield ChartProblem(address.child("choice"), "a position stands there twice", "keep one")


def named(
    address: Address, name: str, sockets: Sockets, *, kinds: Iterable[SocketKind]
) -> Iterator[ChartProblem]:
    """A problem when no socket has this name, or not one of these kinds."""
    wanted = tuple(kinds)
    socket = sockets.get(name)
    if socket is None:
        suits = [one.id for one in sockets.values() if one.kind in wanted]
        meant = nearest(name, suits)
        known = f'did you mean "{meant}"?' if meant else f"there are: {', '.join(suits) or 'none'}"
        yield ChartProblem(
            address, f'there is no socket "{name}"', f"name one of its sockets ({known})"
        )
    elif socket.kind not in wanted:
        yield ChartProblem(
            address,
            f'the socket "{name}" is {socket.kind}',
            f"name one that is {' or '.join(wanted)}",
        )


def _output(one: OutputShape, sockets: Sockets) -> Iterator[ChartProblem]:
    """A MIDI output: an electrical copy has one input, is made at once, and keeps nothing back."""
    address = at("output", one.socket)
    yield from named(address, one.socket, sockets, kinds=_OUT)
    for source in one.from_ or ():
        yield from named(address.child("from"), source, sockets, kinds=_IN)
    if one.socket in (one.from_ or ()):
        yield ChartProblem(
            address.child("from"),
            f"{one.socket} passes on what comes in at {one.socket}, an endless ring",
            "leave it out of `from`",
        )
    if len(set(one.ways)) < len(one.ways):
        yield ChartProblem(address.child("ways"), "a way stands there twice", "keep one")
    if "thru-wire" in one.ways:
        yield from _wire(one, sockets, address)


def _wire(one: OutputShape, sockets: Sockets, address: Address) -> Iterator[ChartProblem]:
    if one.from_ is not None:
        sources = list(one.from_)
    else:
        heard = (socket for socket in sockets.values() if socket.kind in _IN)
        sources = [socket.id for socket in heard if socket.id != one.socket]
    wired = [name for name in sources if name in sockets and sockets[name].kind != "usb"]
    if len(sources) != 1 or len(wired) != 1:
        yield ChartProblem(
            address.child("from"),
            f"an electrical copy has one MIDI input, this one has {', '.join(sources) or 'none'}",
            'name the one input in `from`, or call it "thru-soft" if a processor sends it again',
        )
    if one.blocks and set(one.ways) <= {"thru-wire", "off"}:
        yield ChartProblem(
            address.child("blocks"),
            "an electrical copy cannot keep anything back",
            'take `blocks` away, or call it "thru-soft"',
        )


def _bond(one: Bond, sockets: Sockets) -> Iterator[ChartProblem]:
    """Two sockets joined inside: contacts of their own connectors."""
    address = at("bond", f"{one.from_}>{one.to}")
    for key, name, contacts in (
        ("from", one.from_, one.contacts.keys()),
        ("to", one.to, one.contacts.values()),
    ):
        socket = sockets.get(name)
        if socket is None:
            yield from named(address.child(key), name, sockets, kinds=SocketKind)
            continue
        strange = [contact for contact in contacts if contact not in CONTACTS[socket.connector]]
        if strange:
            yield ChartProblem(
                address.child("contacts"),
                f"{name} ({socket.connector}) has no contact {', '.join(strange)}",
                f"its contacts are {', '.join(CONTACTS[socket.connector])}",
            )
    if one.from_ == one.to:
        yield ChartProblem(address, "a socket is joined to itself", "name two sockets")
    if not one.contacts:
        yield ChartProblem(
            address.child("contacts"), "nothing is joined", "write at least one pair"
        )


def _loops(document: ChartShape, sockets: Sockets) -> Iterator[ChartProblem]:
    """Relay loops, and who switches them."""
    used: dict[str, str] = {}
    for one in document.loop:
        address = at("loop", one.id)
        yield from named(address.child("send"), one.send, sockets, kinds=(SocketKind.AUDIO_OUT,))
        yield from named(
            address.child("return"), one.return_, sockets, kinds=(SocketKind.AUDIO_IN,)
        )
        for socket in (one.send, one.return_):
            if used.setdefault(socket, one.id) != one.id:
                yield ChartProblem(
                    address,
                    f"{socket} belongs to {used[socket]} already",
                    "give every loop a send and a return of its own",
                )
        if document.controller is None:
            yield from _switched(document, one, address)


def _switched(document: ChartShape, one: LoopShape, address: Address) -> Iterator[ChartProblem]:
    """A loop of a unit that is no controller is switched by the control of the same id."""
    control = next((control for control in document.control if control.id == one.id), None)
    if control is None or control.kind != "switch":
        yield ChartProblem(
            address,
            f"nothing switches {one.id}",
            f'add a [[control]] with id = "{one.id}" and kind = "switch"',
        )
