"""The way of the sound, from socket to socket, as the audio path asks for it."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby, pairwise

from thruline.rig.audio import Stage
from thruline.rig.cable import Jack
from thruline.rig.socket import SocketKind
from thruline.rig.whole import Rig

PLUGS = {"trs-6.35": "ts-6.35", "trs-3.5": "ts-3.5"}
"""The plug for sound in a socket that would take three contacts; others get their own."""


@dataclass(frozen=True, slots=True)
class SoundStep:
    """From one unit to the next: the sockets that may be meant at either end.

    An end is empty where the unit's chart gives no such socket.
    """

    one: str
    other: str
    starts: tuple[Jack, ...]
    stops: tuple[Jack, ...]


def sound_steps(rig: Rig) -> Iterator[SoundStep]:
    """Every step between two units on the board; first those into loops and out of them.

    Loops of one unit, one after the other, are joined inside it.
    """
    stages = rig.audio.stages if rig.audio else ()
    for stage in stages:
        if stage.unit is not None and stage.loop is not None:
            yield from _loop(rig, stage)
    units = [name or "" for name, _ in groupby(stage.unit for stage in stages)]
    for one, other in pairwise(units):
        if one in rig.units and other in rig.units:
            yield SoundStep(one, other, _outs(rig, one), _ins(rig, other))


def sound_plug(rig: Rig, jack: Jack) -> str:
    """The plug for sound that goes into a socket."""
    connector = rig.units[jack.unit].chart.sockets[jack.socket].connector
    return PLUGS.get(connector, connector)


def _loop(rig: Rig, stage: Stage) -> Iterator[SoundStep]:
    owner = rig.units.get(stage.unit or "")
    loop = owner.chart.loops.get(stage.loop or "") if owner else None
    inside = [name for name in stage.inside if name in rig.units]
    if owner is None or loop is None or not inside:
        return
    send, back = (Jack(owner.id, loop.send),), (Jack(owner.id, loop.back),)
    yield SoundStep(owner.id, inside[0], send, _ins(rig, inside[0]))
    for one, other in pairwise(inside):
        yield SoundStep(one, other, _outs(rig, one), _ins(rig, other))
    yield SoundStep(inside[-1], owner.id, _outs(rig, inside[-1]), back)


def _outs(rig: Rig, name: str) -> tuple[Jack, ...]:
    return _sockets(rig, name, SocketKind.AUDIO_OUT)


def _ins(rig: Rig, name: str) -> tuple[Jack, ...]:
    return _sockets(rig, name, SocketKind.AUDIO_IN)


def _sockets(rig: Rig, name: str, kind: SocketKind) -> tuple[Jack, ...]:
    """The sockets of this kind that a unit has, those of its loops aside."""
    chart = rig.units[name].chart
    taken = {socket for loop in chart.loops.values() for socket in (loop.send, loop.back)}
    return tuple(
        Jack(name, one.id)
        for one in chart.sockets.values()
        if one.kind is kind and one.id not in taken
    )
