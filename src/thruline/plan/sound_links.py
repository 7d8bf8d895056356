"""The cables that the way of the sound asks for and that no document has yet."""

from collections.abc import Iterator, Sequence
from itertools import groupby, pairwise

from thruline.rig.audio import Stage
from thruline.rig.cable import Cable, Jack, joined
from thruline.rig.socket import SocketKind
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig

PLUGS = {"trs-6.35": "ts-6.35", "trs-3.5": "ts-3.5"}
"""The plug for sound in a socket that would take three contacts; others get their own."""


def missing_sound_cables(rig: Rig) -> Iterator[Cable]:
    """A cable for each step of the way of the sound between two sockets that are still free.

    Where a unit has several sockets to choose from nobody can tell which is meant, and none is
    given.
    """
    used = {jack for cable in rig.cables for jack in (cable.start, cable.stop)}
    for start, stop in _steps(rig):
        if start is not None and stop is not None and not used & {start, stop}:
            plugs = _plug(rig, start), _plug(rig, stop)
            yield Cable(
                start=start,
                stop=stop,
                plugs=plugs,
                joins=joined(plugs, "straight") or (),
                wiring="straight",
                length=None,
            )


_Step = tuple[Jack | None, Jack | None]
"""From one socket to the next; None where it cannot be told which, or it is not on the board."""


def _steps(rig: Rig) -> Iterator[_Step]:
    stages = rig.audio.stages if rig.audio else ()
    for stage in stages:
        if stage.unit is not None and stage.loop is not None:
            yield from _loop(rig, stage)
    # Loops of one unit, one after the other, are joined inside it.
    units = [name for name, _ in groupby(stage.unit for stage in stages)]
    for one, other in pairwise(units):
        if one is not None and other is not None:
            yield _only(rig, one, SocketKind.AUDIO_OUT), _only(rig, other, SocketKind.AUDIO_IN)


def _loop(rig: Rig, stage: Stage) -> Iterator[_Step]:
    owner = rig.units.get(stage.unit or "")
    loop = owner.chart.loops.get(stage.loop or "") if owner else None
    inside = [name for name in stage.inside if name in rig.units]
    if owner is None or loop is None or not inside:
        return
    yield Jack(owner.id, loop.send), _only(rig, inside[0], SocketKind.AUDIO_IN)
    for one, other in pairwise(inside):
        yield _only(rig, one, SocketKind.AUDIO_OUT), _only(rig, other, SocketKind.AUDIO_IN)
    yield _only(rig, inside[-1], SocketKind.AUDIO_OUT), Jack(owner.id, loop.back)


def _only(rig: Rig, name: str, kind: SocketKind) -> Jack | None:
    """The one socket of this kind that a unit has, those of its loops aside."""
    unit = rig.units.get(name)
    found = _sockets(unit, kind) if unit else ()
    return Jack(name, found[0]) if len(found) == 1 else None


def _sockets(unit: Unit, kind: SocketKind) -> Sequence[str]:
    loops = unit.chart.loops.values()
    taken = {socket for loop in loops for socket in (loop.send, loop.back)}
    sockets = unit.chart.sockets.values()
    return [one.id for one in sockets if one.kind is kind and one.id not in taken]


def _plug(rig: Rig, jack: Jack) -> str:
    connector = rig.units[jack.unit].chart.sockets[jack.socket].connector
    return PLUGS.get(connector, connector)
