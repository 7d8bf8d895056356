"""A MIDI lead where one is missing, as a mend."""

from collections.abc import Iterator
from dataclasses import replace

from thruline.base.address import at
from thruline.base.edit import add_to
from thruline.path.links import read_links
from thruline.path.unplugged import Break
from thruline.proof.finding import Mend
from thruline.rig.cable import Cable, Jack, is_adapted, joined
from thruline.rig.whole import Rig


def missing_lead(rig: Rig, cause: Break) -> Iterator[Mend]:
    """A lead from the first free output from which it carries, into the socket that is empty."""
    if cause.jack is None:
        return
    for start in cause.free:
        for cable in _leads(rig, start, cause.jack):
            if _works(rig, cable):
                yield Mend(
                    f"Put a lead from {start} to {cause.jack}", (add_to(at("cable"), _row(cable)),)
                )
                return


def _leads(rig: Rig, start: Jack, stop: Jack) -> Iterator[Cable]:
    """The leads that a shop would have for these two sockets."""
    plugs = (_plug(rig, start), _plug(rig, stop))
    for wiring in ("type-a", "type-b") if is_adapted(plugs) else ("straight", "crossed"):
        joins = joined(plugs, wiring)
        if joins is not None:
            yield Cable(
                start=start, stop=stop, plugs=plugs, joins=joins, wiring=wiring, length=None
            )


def _plug(rig: Rig, jack: Jack) -> str:
    """A 5-pin plug goes into a 7-pin socket, and leaves the power there alone."""
    connector = rig.units[jack.unit].chart.sockets[jack.socket].connector
    return "din5" if connector == "din7" else connector


def _works(rig: Rig, cable: Cable) -> bool:
    """Whether the lead carries, and takes no power where none is expected."""
    alone = read_links(replace(rig, cables=(cable,)))
    return any(one.carries and not one.hazards for one in alone if one.start == cable.start)


def _row(cable: Cable) -> dict[str, str]:
    row = {"from": str(cable.start), "to": str(cable.stop), "ends": "/".join(cable.plugs)}
    return row if cable.wiring == "straight" else {**row, "wiring": cable.wiring}
