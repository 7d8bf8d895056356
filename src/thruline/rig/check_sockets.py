"""Sockets of a chart: connectors that suit what they carry, wirings that suit connectors."""

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from thruline.base.address import Address, at
from thruline.document.chart_shape import ChartShape, SocketShape
from thruline.document.shape import Size
from thruline.rig.chart_problem import ChartProblem
from thruline.rig.socket import CONTACTS, SIGNALS, SocketKind, Wiring

_JACKS = ("trs-2.5", "trs-3.5", "trs-6.35", "ts-3.5", "ts-6.35")
_MIDI = ("din5", "din7", *_JACKS)
_USB = ("usb-a", "usb-b", "usb-c")

CONNECTORS: Mapping[SocketKind, tuple[str, ...]] = MappingProxyType(
    {
        SocketKind.MIDI_IN: _MIDI,
        SocketKind.MIDI_OUT: _MIDI,
        SocketKind.MIDI: _MIDI,
        SocketKind.USB: _USB,
        SocketKind.EXPRESSION_IN: _JACKS,
        SocketKind.EXPRESSION_OUT: _JACKS,
        SocketKind.SWITCH_IN: _JACKS,
        SocketKind.SWITCH_OUT: _JACKS,
        SocketKind.AUDIO_IN: _JACKS,
        SocketKind.AUDIO_OUT: _JACKS,
        SocketKind.POWER_IN: ("barrel-2.1", "barrel-2.5", *_USB, "din5", "din7", "ts-3.5", "mains"),
        SocketKind.POWER_OUT: ("barrel-2.1", "barrel-2.5", *_USB, "ts-3.5", "mains"),
    }
)
"""The connectors that each kind of socket is found with."""

_CURRENT_LOOP = (SocketKind.MIDI_IN, SocketKind.MIDI_OUT, SocketKind.MIDI)


def look_at_sockets(document: ChartShape) -> Iterator[ChartProblem]:
    """Sockets whose parts contradict each other, and power facts that do."""
    for one in document.socket:
        address = at("socket", one.id)
        yield from _connector(one, address)
        yield from _wiring(one, address)
        if one.isolated is not None and one.kind != "midi-in":
            yield ChartProblem(
                address.child("isolated"),
                f"{one.id} is no MIDI input, and only those are isolated",
                "take `isolated` away",
            )
        if document.size is not None:
            yield from _place(one, document.size, address)
    yield from _power(document)
    yield from _expression(document)


def _connector(one: SocketShape, address: Address) -> Iterator[ChartProblem]:
    allowed = CONNECTORS[SocketKind(one.kind)]
    if one.connector not in allowed:
        yield ChartProblem(
            address.child("connector"),
            f"{one.id} is {one.kind}, which is not found on {one.connector}",
            f"look at the socket again; it can be {', '.join(allowed)}",
        )


def _wiring(one: SocketShape, address: Address) -> Iterator[ChartProblem]:
    """A wiring is for MIDI sockets, and needs the contacts that it names."""
    if one.wiring is None:
        return
    if one.kind not in _CURRENT_LOOP:
        yield ChartProblem(
            address.child("wiring"),
            f"{one.id} is {one.kind}; `wiring` tells how MIDI lies on a socket",
            "take it away",
        )
        return
    signals = SIGNALS[Wiring(one.wiring)]
    contacts = CONTACTS[one.connector]
    lacking = [
        contact
        for contact in (signals.source, signals.sink, signals.shield)
        if contact is not None and contact not in contacts
    ]
    if lacking:
        yield ChartProblem(
            address.child("wiring"),
            f"{one.connector} has no contact {' or '.join(lacking)}, which {one.wiring} needs",
            "correct the connector or the wiring",
        )


def _place(one: SocketShape, size: Size, address: Address) -> Iterator[ChartProblem]:
    """A socket sits within its side."""
    if one.place is None:
        return
    longest = size.depth if one.place.side in ("left", "right") else size.width
    if one.place.along > longest:
        yield ChartProblem(
            address.child("place"),
            f"{one.id} sits {one.place.along} mm along a side of {longest} mm",
            "measure again, from the left or, on a side, from the back",
        )


def _power(document: ChartShape) -> Iterator[ChartProblem]:
    """What a unit wants of a supply."""
    need = document.power
    if need is None:
        return
    if not any(one.kind == "power-in" for one in document.socket):
        yield ChartProblem(
            at("power"),
            "it wants power, but has no socket for it",
            'add a [[socket]] with kind = "power-in"',
        )
    if need.most_millivolts is not None and need.most_millivolts < need.millivolts:
        yield ChartProblem(
            at("power").child("most-millivolts"),
            f"it bears {need.most_millivolts} mV at most, and wants {need.millivolts}",
            "exchange the two",
        )
    if need.feed == "ac" and need.polarity is not None:
        yield ChartProblem(
            at("power").child("polarity"),
            "alternating current has no polarity",
            "look at the label: ~ is AC, a line with dashes under it is DC",
        )


def _expression(document: ChartShape) -> Iterator[ChartProblem]:
    """An expression pedal."""
    pedal = document.expression
    if pedal is None:
        return
    if not any(one.kind == "expression-out" for one in document.socket):
        yield ChartProblem(
            at("expression"),
            "it is an expression pedal, but has no socket for its lead",
            'add a [[socket]] with kind = "expression-out"',
        )
    if pedal.lowest >= pedal.highest:
        yield ChartProblem(
            at("expression").child("lowest"),
            f"it reaches {pedal.lowest} at the heel and {pedal.highest} at the toe",
            'write the lower one first; an upside-down pedal is wiring = "ends-swapped"',
        )
