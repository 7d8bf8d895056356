"""What a search supposes where charts are silent.

A proof takes nothing for granted. A search may: what it supposes wrongly is among its suspects, as
a lead or jack of the other type, and a board that nothing passes through could not be searched.
"""

from dataclasses import replace
from types import MappingProxyType

from thruline.rig.socket import MIDI_KINDS, Socket, SocketKind, Wiring
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig


def supposed(rig: Rig) -> Rig:
    """The rig with MIDI jacks whose charts do not tell their wiring taken as type A (RP-054)."""
    units = {name: _told(unit) for name, unit in rig.units.items()}
    controller = units[rig.controller.id] if rig.controller else None
    return replace(rig, units=MappingProxyType(units), controller=controller)


def _told(unit: Unit) -> Unit:
    sockets = {name: _as_usual(socket) for name, socket in unit.chart.sockets.items()}
    if sockets == unit.chart.sockets:
        return unit
    return replace(unit, chart=replace(unit.chart, sockets=MappingProxyType(sockets)))


def _as_usual(socket: Socket) -> Socket:
    is_midi_jack = socket.kind in MIDI_KINDS and socket.kind is not SocketKind.USB
    if socket.wiring is not None or not is_midi_jack or not socket.connector.startswith("trs"):
        return socket
    return replace(socket, wiring=Wiring.TYPE_A)
