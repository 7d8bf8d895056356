"""Power on contacts that MIDI leaves unused, and where a cable takes it.

Some boards feed a remote unit over contacts 1 and 3 of a DIN lead, or over a free ring. A lead that
joins those contacts brings the power to whatever is at the other end (trade usage; CA-033 leaves
contacts 1 and 3 unused).
"""

from dataclasses import dataclass
from enum import StrEnum

from thruline.path.match import Ending
from thruline.path.nets import Joint, nets
from thruline.rig.cable import Jack


class SpareKind(StrEnum):
    """What becomes of power on a spare contact."""

    SHORTED = "shorted"
    """It meets a signal or a shield: the supply is shorted, or the unit harmed."""
    REACHES = "reaches"
    """It reaches a contact at which the other unit expects nothing."""
    SHARED = "shared"
    """It reaches a contact that carries power at the other unit too."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hazard:
    """Power on a spare `contact` of `giver` that meets contact `met` of `taker`."""

    kind: SpareKind
    giver: Jack
    contact: str
    taker: Jack
    met: str

    @property
    def says(self) -> str:
        """One sentence for people."""
        return f"contact {self.contact} of {self.giver} carries power and {self._ends_at()}"

    def _ends_at(self) -> str:
        met = f"contact {self.met} of {self.taker}"
        match self.kind:
            case SpareKind.SHORTED:
                return f"is joined with {met}, which is a signal or the shield"
            case SpareKind.REACHES:
                return f"reaches {met}, which expects none"
            case SpareKind.SHARED:
                return f"reaches {met}, which carries power as well"


def spare_power(start: Ending, stop: Ending, joints: tuple[Joint, ...]) -> tuple[Hazard, ...]:
    """Every spare contact with power on it that is joined with something at either end."""
    if not (start.socket.spare_power or stop.socket.spare_power):
        return ()
    joined = nets(tuple(joint.pairs for joint in joints))
    here = [(start, contact, joined.of((0, contact))) for contact in start.socket.contacts]
    there = [(stop, contact, joined.of((len(joints), contact))) for contact in stop.socket.contacts]
    found = (
        Hazard(
            kind=_kind(giver, taker, met),
            giver=giver.jack,
            contact=contact,
            taker=taker.jack,
            met=met,
        )
        for giver, contact, net in here + there
        if giver.socket.spare_power and contact in _spare(giver)
        for taker, met, other in here + there
        if net == other and not (giver is taker and met in _spare(giver))
    )
    # Power that both ends know of is one thing, told from the start.
    return tuple(
        one for one in found if one.kind is not SpareKind.SHARED or one.giver == start.jack
    )


def _kind(giver: Ending, taker: Ending, met: str) -> SpareKind:
    if giver is taker or met not in _spare(taker):
        return SpareKind.SHORTED
    return SpareKind.SHARED if taker.socket.spare_power else SpareKind.REACHES


def _spare(ending: Ending) -> tuple[str, ...]:
    """The contacts that MIDI leaves unused; every one on a socket that is not for MIDI."""
    if ending.is_usb:
        return ()
    signals = ending.signals
    used = {signals.source, signals.sink, signals.shield} if signals else set()
    return tuple(contact for contact in ending.socket.contacts if contact not in used)
