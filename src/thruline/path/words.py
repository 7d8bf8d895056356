"""Hops in trade words: `feet MIDI OUT -> cable 300 mm -> pre MIDI IN, passed on by ...`."""

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from thruline.path.carriers import Hop
from thruline.path.links import Link
from thruline.rig.cable import Cable, Jack
from thruline.rig.chart import Way
from thruline.rig.unit import Unit, marked

WAYS: Mapping[Way, str] = MappingProxyType(
    {
        Way.THRU_WIRE: "thru",
        Way.THRU_SOFT: "soft thru",
        Way.MERGE: "merge",
        Way.OWN: "own messages only",
        Way.OFF: "off",
    }
)
"""What an output does, as people say it."""


def jack_in_words(units: Mapping[str, Unit], jack: Jack) -> str:
    """A socket by its unit and what is printed beside it, or else its id: `feet MIDI OUT`."""
    unit = units.get(jack.unit)
    socket = unit.chart.sockets.get(jack.socket) if unit else None
    marked = socket.marked if socket else ""
    return f"{jack.unit} {marked or jack.socket.replace('-', ' ').upper()}"


def hops_in_words(units: Mapping[str, Unit], hops: tuple[Hop, ...]) -> str:
    """A whole way, from the output where it begins to the input where it ends."""
    said = ""
    for hop in hops:
        if said:
            way = WAYS[hop.way] if hop.way else "cannot be told"
            said += f", passed on by {hop.link.start.unit} ({way}) at "
        said += link_in_words(units, hop.link)
    return said


def hops_by_name(units: Mapping[str, Unit], hops: tuple[Hop, ...]) -> Iterator[str]:
    """A whole way for whoever sees the board and no document: socket by socket, units by name.

    `MIDI OUT 1 to Egremont Preamp MIDI IN`, then `passed on (thru) at MIDI OUT to ...`.
    """
    for place, hop in enumerate(hops):
        start, stop = hop.link.start, hop.link.stop
        leaves = marked(units[start.unit], start.socket)
        if place:
            way = WAYS[hop.way] if hop.way else "cannot be told"
            leaves = f"passed on ({way}) at {leaves}"
        arrives = units[stop.unit]
        yield f"{leaves} to {arrives.name} {marked(arrives, stop.socket)}"


def link_in_words(units: Mapping[str, Unit], link: Link) -> str:
    """One link with its cables and adapters: `feet MIDI OUT -> cable 300 mm -> pre MIDI IN`."""
    parts = [jack_in_words(units, link.start), cable_in_words(link.cables[0])]
    for adapter, cable in zip(link.adapters, link.cables[1:], strict=True):
        parts += [f"adapter {adapter}", cable_in_words(cable)]
    return " -> ".join([*parts, jack_in_words(units, link.stop)])


def cable_in_words(cable: Cable) -> str:
    """A cable by its length, where that is written."""
    return "cable" if cable.length is None else f"cable {cable.length} mm"
