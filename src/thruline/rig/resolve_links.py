"""Cables and the audio path of a document, resolved."""

import re
from collections import Counter
from collections.abc import Mapping

from thruline.base.address import Address, at, nth
from thruline.document.rig_shape import CableShape, RigShape
from thruline.rig.audio import Audio, Stage
from thruline.rig.cable import Cable, Jack, joined
from thruline.rig.nearest import gap
from thruline.rig.socket import CONTACTS
from thruline.rig.unit import Unit
from thruline.rig.whole import Lack, Unresolved

Gaps = list[Unresolved]
"""What could not be resolved so far."""

_LOOP = re.compile(r"([a-z0-9-]+)\.([a-z0-9-]+)\[([^\]]*)\]")


def read_cables(document: RigShape, units: Mapping[str, Unit], gaps: Gaps) -> tuple[Cable, ...]:
    """Every cable whose ends and sockets are known; notes the others."""
    seen: Counter[str] = Counter()
    cables = []
    for one in document.cable:
        name = f"{one.from_}>{one.to}"
        seen[name] += 1
        address = at("cable", nth(name, seen[name]))
        cable = _cable(one, units, seen[name], address=address, gaps=gaps)
        if cable is not None:
            cables.append(cable)
    return tuple(cables)


def _cable(
    one: CableShape, units: Mapping[str, Unit], occurrence: int, *, address: Address, gaps: Gaps
) -> Cable | None:
    start = read_jack(one.from_, units, address.child("from"), gaps=gaps)
    stop = read_jack(one.to, units, address.child("to"), gaps=gaps)
    first, second = one.ends.split("/")
    for plug, writes in ((first, f"{{}}/{second}"), (second, f"{first}/{{}}")):
        if plug not in CONTACTS:
            where = address.child("ends")
            says = f'"{plug}" is not a plug; there are: {", ".join(sorted(CONTACTS))}'
            gaps.append(gap(Lack.PLUG, where, plug, says=says, known=CONTACTS, writes=writes))
            return None
    if start is None or stop is None:
        return None
    plugs = (first, second)
    named = isinstance(one.wiring, str)
    joins = joined(plugs, one.wiring) if isinstance(one.wiring, str) else tuple(one.wiring.items())
    if joins is None:
        says = f'no cable with ends {one.ends} is wired "{one.wiring}"'
        gaps.append(gap(Lack.WIRING, address.child("wiring"), str(one.wiring), says=says, known=()))
        return None
    return Cable(
        start=start,
        stop=stop,
        plugs=plugs,
        joins=joins,
        wiring=str(one.wiring) if named else "special",
        length=one.length,
        occurrence=occurrence,
    )


def read_jack(text: str, units: Mapping[str, Unit], address: Address, *, gaps: Gaps) -> Jack | None:
    """The socket that `unit.socket` names, or None with a note."""
    unit_id, socket_id = text.split(".")
    unit = units.get(unit_id)
    if unit is None:
        says, writes = f'there is no unit "{unit_id}"', f"{{}}.{socket_id}"
        known = [name for name, one in units.items() if socket_id in one.chart.sockets]
        gaps.append(gap(Lack.UNIT, address, unit_id, says=says, known=known, writes=writes))
        return None
    if socket_id not in unit.chart.sockets:
        says, writes = f'{unit.name} has no socket "{socket_id}"', f"{unit_id}.{{}}"
        known = list(unit.chart.sockets)
        gaps.append(gap(Lack.SOCKET, address, socket_id, says=says, known=known, writes=writes))
        return None
    return Jack(unit_id, socket_id)


def read_audio(document: RigShape, units: Mapping[str, Unit], gaps: Gaps) -> Audio | None:
    """The audio path; words that are no units stand for what is not on the board."""
    if document.audio is None:
        return None
    last = len(document.audio.path) - 1
    stages = []
    for place, written in enumerate(document.audio.path):
        address = at("audio").child("path", f"#{place + 1}")
        found = _LOOP.fullmatch(written.strip())
        if found:
            stages.append(_loop_stage(written, found, units, address=address, gaps=gaps))
        elif written in units or place in (0, last):
            stages.append(Stage(written, written if written in units else None))
        else:
            says = f'the audio path names "{written}", which is no unit'
            gaps.append(gap(Lack.UNIT, address, written, says=says, known=units, writes="{}"))
    return Audio(tuple(stages))


def _loop_stage(
    written: str, found: re.Match[str], units: Mapping[str, Unit], *, address: Address, gaps: Gaps
) -> Stage:
    """A relay loop with the units inside it."""
    owner, loop = found[1], found[2]
    inside = tuple(name.strip() for name in found[3].split(",") if name.strip())
    for name in (owner, *inside):
        if name not in units:
            says = f'the audio path names "{name}", which is no unit'
            writes = written.replace(name, "{}", 1) if written.count(name) == 1 else ""
            gaps.append(gap(Lack.UNIT, address, name, says=says, known=units, writes=writes))
    if owner in units and loop not in units[owner].chart.loops:
        known = units[owner].chart.loops
        says = f'{units[owner].name} has no relay loop "{loop}"'
        writes = f"{owner}.{{}}[{found[3]}]"
        gaps.append(gap(Lack.LOOP, address, loop, says=says, known=known, writes=writes))
    return Stage(written, owner, loop, tuple(name for name in inside if name in units))
