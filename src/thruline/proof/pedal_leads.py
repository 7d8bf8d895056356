"""What the lead of an expression pedal joins, contact by contact, from the pedal to the input."""

from dataclasses import dataclass

from thruline.path.nets import nets, touches, turned
from thruline.proof.pedals import lead_of
from thruline.rig.cable import Cable, Jack
from thruline.rig.socket import plug_fits
from thruline.rig.whole import Rig

THREE = ("tip", "ring", "sleeve")
"""The contacts that a pedal with a wiper between two ends needs, each by itself."""


@dataclass(frozen=True, slots=True)
class PedalLead:
    """A lead into an expression input.

    `comes_from` gives for each contact of the input the contacts of the pedal that reach it;
    `shorted` are contacts of the input that are joined with each other.
    """

    cable: Cable
    comes_from: dict[str, tuple[str, ...]]
    shorted: tuple[tuple[str, str], ...]

    @property
    def open_(self) -> tuple[str, ...]:
        """Contacts of the input that no contact of the pedal reaches."""
        return tuple(one for one in THREE if not self.comes_from[one])

    @property
    def is_whole(self) -> bool:
        """Whether each contact of the input meets one contact of the pedal."""
        return not self.shorted and not self.open_

    @property
    def swaps(self) -> bool:
        """Whether tip and ring arrive exchanged."""
        return self.comes_from["tip"] == ("ring",) and self.comes_from["ring"] == ("tip",)


def pedal_lead(rig: Rig, jack: Jack) -> PedalLead | None:
    """What the lead in an expression input joins; None without one whose plugs fit."""
    cable = lead_of(rig, jack)
    if cable is None:
        return None
    start, stop = (
        rig.units[one.unit].chart.sockets[one.socket].connector for one in (cable.start, jack)
    )
    first, second = cable.plugs
    if not (plug_fits(first, start) and plug_fits(second, stop)):
        return None
    joints = (turned(touches(first, start)), cable.joins, touches(second, stop))
    found = nets(joints)
    here = {one: found.of((0, one)) for one in THREE}
    there = {one: found.of((3, one)) for one in THREE}
    pairs = (("tip", "ring"), ("tip", "sleeve"), ("ring", "sleeve"))
    return PedalLead(
        cable=cable,
        comes_from={one: tuple(a for a in THREE if here[a] == net) for one, net in there.items()},
        shorted=tuple((a, b) for a, b in pairs if there[a] == there[b]),
    )
