"""What may be wrong with the MIDI leads of a rig, and with the sockets that they are in."""

from collections.abc import Callable, Iterator
from dataclasses import replace

from thruline.find.kinds import Kind
from thruline.find.meant import Meant
from thruline.find.rig_edits import cable_key, cut, cut_at, with_cable
from thruline.find.suspect import Change, Reach, Suspect
from thruline.path.links import Link, read_links
from thruline.rig.cable import Cable, Jack, joined
from thruline.rig.chart import Way
from thruline.rig.socket import Socket, SocketKind, plug_fits
from thruline.rig.sound_steps import PLUGS
from thruline.rig.unit import way_of
from thruline.rig.whole import Rig

LONGEST_MM = 15_000
"""Longer leads need more than the standard promises (MIDI 1.0: 15 m)."""


def cable_suspects(meant: Meant) -> Iterator[Suspect]:
    """For every lead that messages pass, in the order of the document."""
    rig = meant.rig
    for link in meant.case.board.network.links:
        if link.carries is False or not link.on_wires:
            continue
        for cable in link.cables:
            yield from _of_cable(rig, link, cable)
        yield _socket_dead(meant, Kind.OUTPUT_DEAD, link.start)
        yield _socket_dead(meant, Kind.INPUT_DEAD, link.stop)


def called(rig: Rig, cable: Cable) -> str:
    """A lead as people call it."""
    ends = (rig.units[jack.unit].name for jack in (cable.start, cable.stop))
    return f"the lead {' – '.join(ends)}"


def _of_cable(rig: Rig, link: Link, cable: Cable) -> Iterator[Suspect]:
    key, tester = cable_key(cable), f"tester {cable_key(cable)}"
    plug = f"plug {cable_key(cable)}"

    def suspect(kind: Kind, make: Callable[[Cable], Cable | None], **shows: str) -> Suspect:
        change = _cable_change(rig, link, key, make, kind=kind)
        names = {"tester": tester, "plug": plug, "wiggle": f"wiggle {key}"}
        seen = {names[name]: value for name, value in shows.items()}
        what = called(rig, cable)
        return Suspect(kind=kind, on=key, what=what, changes=(change,), shows=seen)

    yield suspect(Kind.CABLE_OPEN, cut, tester="open")
    yield suspect(Kind.CABLE_NOT_SEATED, cut, plug="out")
    yield suspect(Kind.CABLE_LOOSE, cut, tester="unsteady", wiggle="comes-and-goes")
    yield suspect(Kind.CABLE_SHIELD_OPEN, cut, tester="open")
    for kind, wiring, shows in _other_wirings(cable):
        joins = joined(cable.plugs, wiring)
        if joins is not None and joins != cable.joins:
            yield suspect(kind, _with_joins(joins), tester=shows)
    if any(name in PLUGS for name in cable.plugs):
        yield suspect(Kind.CABLE_MONO_PLUG, _mono, plug="mono")
    if link.length_mm is not None and link.length_mm > LONGEST_MM:
        yield suspect(Kind.CABLE_TOO_LONG, cut)
    into = _other_socket(rig, cable.stop, SocketKind.MIDI_OUT, cable.plugs[1])
    if into is not None:
        yield suspect(Kind.CABLE_INTO_OUTPUT, lambda one: replace(one, stop=into), plug="elsewhere")
    start = _other_socket(rig, cable.start, SocketKind.MIDI_OUT, cable.plugs[0])
    if start is not None and not _says_the_same(rig, cable.start, start):
        yield suspect(
            Kind.CABLE_FROM_OTHER_OUTPUT, lambda one: replace(one, start=start), plug="elsewhere"
        )


def _other_wirings(cable: Cable) -> Iterator[tuple[Kind, str, str]]:
    """Wrong ways in which a lead with these plugs may be wired."""
    kinds = {plug.split("-")[0].rstrip("57") for plug in cable.plugs}
    if kinds == {"din", "trs"}:
        yield Kind.CABLE_OTHER_TYPE, "type-a" if cable.wiring == "type-b" else "type-b", "crossed"
    elif cable.wiring != "crossed":
        other = Kind.CABLE_OTHER_TYPE if kinds == {"trs"} else Kind.CABLE_CROSSED
        yield other, "crossed", "crossed"


def _with_joins(joins: tuple[tuple[str, str], ...]) -> Callable[[Cable], Cable]:
    return lambda cable: replace(cable, joins=joins)


def _mono(cable: Cable) -> Cable:
    """The lead with two-contact plugs where it had three."""
    plugs = tuple(PLUGS.get(plug, plug) for plug in cable.plugs)
    lost = [plug != before for plug, before in zip(plugs, cable.plugs, strict=True)]
    joins = tuple(
        pair
        for pair in cable.joins
        if not any(gone and one == "ring" for one, gone in zip(pair, lost, strict=True))
    )
    return replace(cable, plugs=(plugs[0], plugs[1]), joins=joins)


def _other_socket(rig: Rig, jack: Jack, kind: SocketKind, plug: str) -> Jack | None:
    """A free socket of the same unit that the plug would go into by mistake."""
    used = {one for cable in rig.cables for one in (cable.start, cable.stop)}
    for socket in rig.units[jack.unit].chart.sockets.values():
        other = Jack(jack.unit, socket.id)
        if other not in used and socket.kind is kind and _takes(socket, plug):
            return other
    return None


def _takes(socket: Socket, plug: str) -> bool:
    return plug_fits(plug, socket.connector)


def _says_the_same(rig: Rig, one: Jack, other: Jack) -> bool:
    """Whether two outputs of a unit do the same, so that it does not matter which is used."""
    unit = rig.units[one.unit]
    here, there = way_of(unit, one.socket), way_of(unit, other.socket)
    return here is there or {here, there} <= {Way.THRU_SOFT, Way.THRU_WIRE}


def _cable_change(
    rig: Rig, link: Link, key: str, make: Callable[[Cable], Cable | None], *, kind: Kind
) -> Change:
    """The change of a lead. All that lets nothing through are one change: the link is cut."""

    def of_rig(board: Rig) -> Rig:
        return with_cable(board, key, make)

    silent = make is cut or not _carries(of_rig(_alone(rig, link)))
    return Change(
        key=f"cut {key}" if silent else f"{kind} {key}",
        silences=frozenset((link.start, link.stop)) if silent else frozenset(),
        reach=Reach.WIRES,
        on=key,
        of_rig=(lambda board: with_cable(board, key, cut)) if silent else of_rig,
    )


def _alone(rig: Rig, link: Link) -> Rig:
    """A link by itself."""
    return replace(rig, cables=link.cables)


def _carries(rig: Rig) -> bool:
    """Whether anything gets through between any two sockets."""
    return any(link.carries is not False for link in read_links(rig))


def _socket_dead(meant: Meant, kind: Kind, jack: Jack) -> Suspect:
    unit = meant.rig.units[jack.unit]
    marked = unit.chart.sockets[jack.socket].marked or jack.socket
    change = Change(
        key=f"dead {jack}",
        alike=alike_cut(meant, jack),
        silences=frozenset((jack,)),
        reach=Reach.WIRES,
        on=unit.id,
        of_rig=lambda board: cut_at(board, jack),
    )
    return Suspect(kind=kind, on=str(jack), what=f"{marked} of {unit.name}", changes=(change,))


def alike_cut(meant: Meant, jack: Jack) -> str:
    """The cut of the only lead in a socket, as a key; empty where there is another or none."""
    network = meant.case.board.network
    links = (*network.inputs.get(jack, ()), *network.leaving.get(jack, ()))
    if len(links) != 1 or not links[0].on_wires:
        return ""
    return f"cut {cable_key(links[0].cables[-1 if links[0].stop == jack else 0])}"
