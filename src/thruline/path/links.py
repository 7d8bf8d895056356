"""Sockets joined through cables and passive adapters, whether messages get through or not.

Which end of a cable was written first does not matter: a link leads from what gives to what takes.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import islice, pairwise

from thruline.path.contacts import LinkState, Verdict, judge
from thruline.path.match import Ending
from thruline.path.nets import Joint, Pairs, touches, turned
from thruline.path.spare import Hazard, spare_power
from thruline.rig.cable import Cable, Jack
from thruline.rig.socket import MIDI_KINDS, Socket, SocketKind, plug_fits
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """Two sockets joined, from the one that gives (`start`) to the one that takes (`stop`).

    `cables` lie in order from the start; `adapters` are the ids of the passive units between them.
    `length_mm` is that of all cables, None when one of them is not written. `hazards` tell of power
    on spare contacts. A USB cable makes two links, one each way. For a wrong link (two outputs, two
    inputs, a socket that is not for MIDI) `start` is what gives, or else what the document names
    first.
    """

    start: Jack
    stop: Jack
    cables: tuple[Cable, ...]
    adapters: tuple[str, ...]
    state: LinkState
    why: str
    length_mm: int | None
    hazards: tuple[Hazard, ...] = ()

    @property
    def carries(self) -> bool | None:
        """Whether messages get through; None when that cannot be told."""
        return self.state.carries

    @property
    def on_wires(self) -> bool:
        """Whether both ends are on the same wires; USB is data, and shares nothing."""
        apart = (LinkState.OPEN, LinkState.UNFIT, LinkState.LOOSE_END)
        usb = any(plug.startswith("usb") for plug in self.cables[0].plugs)
        return self.state not in apart and not usb

    @property
    def name(self) -> str:
        """Both sockets: `feet.midi-out>pre.midi-in`."""
        return f"{self.start}>{self.stop}"


@dataclass(frozen=True, slots=True)
class _Lead:
    """A cable as it is passed: from the socket `near` to the socket `far`."""

    near: Jack
    far: Jack
    plugs: tuple[str, str]
    joins: Pairs
    cable: Cable

    def turned(self) -> "_Lead":
        """The same cable, passed the other way."""
        near, far = self.plugs
        return _Lead(self.far, self.near, (far, near), turned(self.joins), self.cable)


_Way = tuple[_Lead, ...]
_ENDS = MIDI_KINDS - {SocketKind.MIDI}


@dataclass(frozen=True, slots=True)
class _Wires:
    """All cables of a rig, by the socket that one of their plugs is in."""

    units: Mapping[str, Unit]
    leads: Mapping[Jack, tuple[_Lead, ...]]

    def socket(self, jack: Jack) -> Socket:
        return self.units[jack.unit].chart.sockets[jack.socket]

    def connector(self, jack: Jack) -> str:
        return self.socket(jack).connector

    def ending(self, jack: Jack) -> Ending:
        return Ending(jack, self.socket(jack))

    def behind(self, jack: Jack) -> dict[Jack, Pairs]:
        """The sockets that a passive unit joins with this one inside, contact to contact."""
        found: dict[Jack, Pairs] = {}
        for bond in self.units[jack.unit].chart.bonds:
            for here, there, pairs in (
                (bond.first, bond.second, bond.contacts),
                (bond.second, bond.first, turned(bond.contacts)),
            ):
                if here == jack.socket and there in self.units[jack.unit].chart.sockets:
                    other = Jack(jack.unit, there)
                    found[other] = (*found.get(other, ()), *pairs)
        return found


MOST_WAYS = 256
"""Ways over adapters that are followed from one socket; only a mesh of passive boxes has more."""


def read_links(rig: Rig) -> tuple[Link, ...]:
    """Every link with a MIDI socket at an end, good and bad, in the order of the cables."""
    wires = _wires(rig)
    begun: dict[Jack, int] = {}
    for cable in rig.cables:
        for jack in (cable.start, cable.stop):
            if wires.socket(jack).kind in _ENDS:
                begun.setdefault(jack, len(begun))
    links = [
        _link(wires, way)
        for jack in begun
        for way in islice(_ways(wires, jack), MOST_WAYS)
        for way in _directed(wires, way, begun)
    ]
    return _doubted(tuple(links))


def _wires(rig: Rig) -> _Wires:
    leads: dict[Jack, list[_Lead]] = {}
    for cable in rig.cables:
        ends = (
            rig.units[jack.unit].chart.sockets[jack.socket] for jack in (cable.start, cable.stop)
        )
        if not any(socket.kind in MIDI_KINDS for socket in ends):
            continue
        lead = _Lead(cable.start, cable.stop, cable.plugs, cable.joins, cable)
        leads.setdefault(lead.near, []).append(lead)
        leads.setdefault(lead.far, []).append(lead.turned())
    return _Wires(rig.units, {jack: tuple(found) for jack, found in leads.items()})


def _ways(wires: _Wires, start: Jack) -> Iterator[_Way]:
    """Every way from a socket over cables and adapters to a socket that is not passive.

    Or to an adapter from which it goes on nowhere. No socket is passed twice.
    """
    ways: list[_Way] = [(lead,) for lead in reversed(wires.leads[start]) if lead.far != start]
    while ways:
        way = ways.pop()
        far = way[-1].far
        if wires.socket(far).kind is not SocketKind.MIDI:
            yield way
            continue
        passed = {start, *(jack for lead in way for jack in (lead.near, lead.far))}
        onward = [
            (*way, lead)
            for jack in wires.behind(far)
            if jack not in passed
            for lead in wires.leads.get(jack, ())
            if lead.far not in passed and lead.far != jack
        ]
        if not onward:
            yield way
        ways.extend(reversed(onward))


def _directed(wires: _Wires, way: _Way, begun: Mapping[Jack, int]) -> tuple[_Way, ...]:
    """The way from what gives to what takes; none when it is told from its other end."""
    start, stop = way[0].near, way[-1].far
    here, there = wires.socket(start).kind, wires.socket(stop).kind
    if stop not in begun:
        takes = here is SocketKind.MIDI_IN
        return (tuple(lead.turned() for lead in reversed(way)),) if takes else (way,)
    if here is there and here is not SocketKind.USB:
        return (way,) if begun[start] < begun[stop] else ()
    gives = here is SocketKind.MIDI_OUT or there is SocketKind.MIDI_IN
    return (way,) if gives or here is there else ()


def _link(wires: _Wires, way: _Way) -> Link:
    start, stop = wires.ending(way[0].near), wires.ending(way[-1].far)
    joints = _joints(wires, way)
    verdict = _misfit(wires, way) or _mismatch(start, stop) or _judged(start, stop, joints)
    lengths = [lead.cable.length for lead in way]
    known = [length for length in lengths if length is not None]
    fits = verdict.state is not LinkState.UNFIT
    return Link(
        start=start.jack,
        stop=stop.jack,
        cables=tuple(lead.cable for lead in way),
        adapters=tuple(lead.near.unit for lead in way[1:]),
        state=verdict.state,
        why=verdict.why,
        length_mm=sum(known) if len(known) == len(lengths) else None,
        hazards=spare_power(start, stop, joints) if fits else (),
    )


@lru_cache(maxsize=1024)  # the same leads are read again for every fault that is put in elsewhere
def _judged(start: Ending, stop: Ending, joints: tuple[Joint, ...]) -> Verdict:
    return judge(start, stop, joints)


def _joints(wires: _Wires, way: _Way) -> tuple[Joint, ...]:
    """From the contacts of the first socket to those of the last."""
    joints = list(_along(wires, way[0]))
    for before, lead in pairwise(way):
        pairs = wires.behind(before.far)[lead.near]
        joints.append(Joint(pairs, f"the adapter {lead.near.unit}"))
        joints += _along(wires, lead)
    return tuple(joints)


def _along(wires: _Wires, lead: _Lead) -> tuple[Joint, Joint, Joint]:
    """Socket to plug, plug to plug, plug to socket."""
    near, far = lead.plugs
    return (
        Joint(turned(touches(near, wires.connector(lead.near))), f"the {near} plug at {lead.near}"),
        Joint(lead.joins, f"the cable {lead.cable.name}"),
        Joint(touches(far, wires.connector(lead.far)), f"the {far} plug at {lead.far}"),
    )


def _misfit(wires: _Wires, way: _Way) -> Verdict | None:
    """A plug on the way that does not go into its socket."""
    for lead in way:
        for plug, jack in zip(lead.plugs, (lead.near, lead.far), strict=True):
            connector = wires.connector(jack)
            if not plug_fits(plug, connector):
                why = f"the plug {plug} does not go into {jack}, which is {connector}"
                return Verdict(LinkState.UNFIT, why)
    return None


def _mismatch(start: Ending, stop: Ending) -> Verdict | None:
    """Two sockets that have nothing to say to each other, whatever the wires."""
    here, there = start.socket.kind, stop.socket.kind
    for ending in (start, stop):
        if ending.socket.kind is SocketKind.MIDI:
            why = f"it ends at {ending.jack}; nothing is plugged in behind it"
            return Verdict(LinkState.LOOSE_END, why)
        if ending.socket.kind not in MIDI_KINDS:
            other = stop if ending is start else start
            why = f"{other.jack} is for MIDI and {ending.jack} is {ending.socket.kind}"
            return Verdict(LinkState.WRONG_KIND, why)
    if here is there and here is not SocketKind.USB:
        side = "outputs" if here is SocketKind.MIDI_OUT else "inputs"
        return Verdict(LinkState.WRONG_WAY, f"{start.jack} and {stop.jack} are both {side}")
    return None


def shared(links: Iterable[Link]) -> dict[Jack, tuple[Link, ...]]:
    """Sockets that are joined with more than one other, and the links that do it.

    A Y lead, a passive merge, or two cables written to one socket. USB is left out.
    """
    found: dict[Jack, list[Link]] = {}
    for link in links:
        if link.on_wires:
            found.setdefault(link.start, []).append(link)
            found.setdefault(link.stop, []).append(link)
    return {jack: tuple(those) for jack, those in found.items() if len(those) > 1}


def _doubted(links: tuple[Link, ...]) -> tuple[Link, ...]:
    """Links with the doubt that lies on a socket which is joined with several.

    One output drives one and only one input (MIDI 1.0 Detailed Specification, CA-033); a second one
    on the same wires takes half of the current, and a second output fights the first.
    """
    several = shared(links)
    if not several:
        return links
    return tuple(_doubt(link, several) if link.carries else link for link in links)


def _doubt(link: Link, several: Mapping[Jack, tuple[Link, ...]]) -> Link:
    if not link.on_wires:
        return link
    if link.start in several:
        count = len(several[link.start])
        why = f"{link.start} is joined with {count} sockets and can rightly drive one"
    elif link.stop in several:
        count = len(several[link.stop])
        why = f"{count} sockets are joined with {link.stop} without a merge between them"
    else:
        return link
    return replace(link, state=LinkState.CANNOT_TELL, why=why)
