"""The cables that the way of the sound asks for and that no document has yet."""

from collections.abc import Iterator

from thruline.rig.cable import Cable, joined
from thruline.rig.sound_steps import sound_plug, sound_steps
from thruline.rig.whole import Rig


def missing_sound_cables(rig: Rig) -> Iterator[Cable]:
    """A cable for each step of the way of the sound between two sockets that are still free.

    Where a unit has several sockets to choose from nobody can tell which is meant, and none is
    given.
    """
    used = {jack for cable in rig.cables for jack in (cable.start, cable.stop)}
    for step in sound_steps(rig):
        if len(step.starts) != 1 or len(step.stops) != 1:
            continue
        start, stop = step.starts[0], step.stops[0]
        if not used & {start, stop}:
            plugs = sound_plug(rig, start), sound_plug(rig, stop)
            yield Cable(
                start=start,
                stop=stop,
                plugs=plugs,
                joins=joined(plugs, "straight") or (),
                wiring="straight",
                length=None,
            )
