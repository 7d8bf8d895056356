"""Cables that the document has and that could not be read: what they probably lead to."""

from thruline.base.address import Address
from thruline.rig.cable import Jack
from thruline.rig.socket import MIDI_KINDS, SocketKind
from thruline.rig.whole import Rig

Ends = tuple[Jack | None, Jack | None]
"""The sockets that a cable leads to, None where its name means nothing."""


def lost_cables(rig: Rig) -> tuple[Ends, ...]:
    """The ends of every cable that is left out because something about it is unknown."""
    meant: dict[Address, dict[str, str]] = {}
    for gap in rig.unresolved:
        if gap.address.steps[0].key == "cable":
            found = meant.setdefault(Address(gap.address.steps[:1]), {})
            if gap.instead is not None:
                found[gap.address.steps[-1].key] = gap.instead
    ends = []
    for address, instead in meant.items():
        start, _, stop = str(address.steps[0].entry).partition("#")[0].partition(">")
        ends.append((_jack(rig, instead.get("from", start)), _jack(rig, instead.get("to", stop))))
    return tuple(ends)


def may_lead_to(rig: Rig, jack: Jack) -> bool:
    """Whether a cable that could not be read was probably meant for this socket."""
    kinds = _alike(_kind(rig, jack))
    for ends in lost_cables(rig):
        if jack in ends:
            return True
        others = [one for one in ends if one is not None]
        if None in ends and any(_kind(rig, one) in kinds for one in others):
            return True
    return False


def _alike(kind: SocketKind) -> frozenset[SocketKind]:
    """The kinds of socket that a cable in a socket of this kind has at its other end."""
    match kind:
        case SocketKind.POWER_IN:
            return frozenset({SocketKind.POWER_OUT})
        case SocketKind.EXPRESSION_IN:
            return frozenset({SocketKind.EXPRESSION_OUT})
        case SocketKind.AUDIO_IN:
            return frozenset({SocketKind.AUDIO_OUT})
        case _:
            return MIDI_KINDS


def _kind(rig: Rig, jack: Jack) -> SocketKind:
    return rig.units[jack.unit].chart.sockets[jack.socket].kind


def _jack(rig: Rig, text: str) -> Jack | None:
    unit, _, socket = text.partition(".")
    known = unit in rig.units and socket in rig.units[unit].chart.sockets
    return Jack(unit, socket) if known else None
