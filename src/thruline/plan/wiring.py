"""How a cable has to be wired, and its contacts one by one."""

from collections.abc import Iterator
from dataclasses import replace

from thruline.path.links import read_links
from thruline.plan.cable_kinds import EXPRESSION, MIDI, POWER, kind_of
from thruline.rig.cable import Cable, Jack, joined
from thruline.rig.socket import CONTACTS, SIGNALS, Socket, plug_fits
from thruline.rig.whole import Rig

NAMED = ("straight", "type-a", "type-b", "crossed")
"""Wirings that have a name, the most usual first."""
NOT_WIRED = "-"

WIPERS = {
    "wiper-on-tip": {"tip": "wiper", "ring": "top of the track", "sleeve": "ground"},
    "wiper-on-ring": {"tip": "top of the track", "ring": "wiper", "sleeve": "ground"},
    "ends-swapped": {"tip": "wiper", "ring": "foot of the track", "sleeve": "top of the track"},
    "two-wire": {"tip": "one end", "sleeve": "other end"},
}
"""What an expression pedal has on its contacts, by how it is wired."""
SOUND = {"tip": "signal", "ring": "signal, second", "sleeve": "ground"}


def socket_of(rig: Rig, jack: Jack) -> Socket:
    """The socket at one end of a cable."""
    return rig.units[jack.unit].chart.sockets[jack.socket]


def as_it_should_be(rig: Rig, cable: Cable) -> Cable:
    """The cable with plugs that fit its sockets and, for MIDI, a wiring that carries.

    It comes back as it is where nothing is wrong with it, or no named wiring helps.
    """
    ends = (socket_of(rig, cable.start), socket_of(rig, cable.stop))
    first, second = (
        plug if plug_fits(plug, end.connector) else end.connector
        for plug, end in zip(cable.plugs, ends, strict=True)
    )
    if (first, second) != cable.plugs:
        joins = joined((first, second), cable.wiring) or joined((first, second), "straight")
        wiring = cable.wiring if joined((first, second), cable.wiring) else "straight"
        better = replace(cable, plugs=(first, second), joins=joins or (), wiring=wiring)
    else:
        better = cable
    if kind_of(ends[0].kind, ends[1].kind, better.plugs) is MIDI and carries(rig, better) is False:
        return next(_rewired(rig, better), better)
    return better


def _rewired(rig: Rig, cable: Cable) -> Iterator[Cable]:
    """The cable in each named wiring that carries."""
    for wiring in NAMED:
        joins = joined(cable.plugs, wiring)
        if joins is not None:
            other = replace(cable, joins=joins, wiring=wiring)
            if carries(rig, other):
                yield other


def by_signals(start: Socket, stop: Socket) -> dict[str, str]:
    """The contacts that a lead from one MIDI socket to another has to join, by their signals.

    Empty where one of them is not for MIDI.
    """
    if start.wiring is None or stop.wiring is None:
        return {}
    first, second = SIGNALS[start.wiring], SIGNALS[stop.wiring]
    pairs = (
        (first.source, second.source),
        (first.sink, second.sink),
        (first.shield, second.shield),
    )
    return {one: other for one, other in pairs if one and other}


def carries(rig: Rig, cable: Cable) -> bool | None:
    """Whether messages get through the cable, with nothing else plugged in but adapters.

    None where that cannot be told, or it is not for messages.
    """
    passive = {name for name, unit in rig.units.items() if unit.chart.bonds}
    others = [
        one
        for one in rig.cables
        if one.address != cable.address and {one.start.unit, one.stop.unit} & passive
    ]
    links = read_links(replace(rig, cables=(cable, *others)))
    found = [link.carries for link in links if cable in link.cables]
    if not found or None in found:
        return None
    return any(found)


def contact_rows(rig: Rig, cable: Cable) -> Iterator[tuple[str, str, str]]:
    """Every contact: at the first plug, at the second, and what it carries."""
    first, second = cable.plugs
    to = dict(cable.joins)
    for contact in CONTACTS[first]:
        other = to.get(contact, NOT_WIRED)
        says = "leave it open" if other == NOT_WIRED else _signal(rig, cable, contact)
        yield contact, other, says
    for contact in CONTACTS[second]:
        if contact not in to.values():
            yield NOT_WIRED, contact, "leave it open"


def _signal(rig: Rig, cable: Cable, contact: str) -> str:
    """What a contact of the first plug carries."""
    start, stop = socket_of(rig, cable.start), socket_of(rig, cable.stop)
    kind = kind_of(start.kind, stop.kind, cable.plugs)
    if kind is MIDI and start.wiring is not None:
        signals = SIGNALS[start.wiring]
        names = {
            signals.source: "current source",
            signals.sink: "data as a voltage" if signals.voltage else "current sink (data)",
            signals.shield: "shield",
        }
        return names.get(contact, "nothing for MIDI")
    if kind is POWER:
        return _power(rig, cable, contact)
    if kind is EXPRESSION:
        pedal = rig.units[cable.start.unit].chart.expression
        return WIPERS.get(pedal.wiring if pedal else "", {}).get(contact, contact)
    return SOUND.get(contact, contact)


def _power(rig: Rig, cable: Cable, contact: str) -> str:
    outlet = rig.units[cable.start.unit].chart.outlets.get(cable.start.socket)
    if outlet is None or (outlet.polarity is None and not outlet.ac):
        return "plus or minus: measure it"
    if outlet.ac:
        return "AC"
    minus = "centre" if outlet.polarity == "centre-negative" else "outer"
    return "minus" if contact == minus else "plus"
