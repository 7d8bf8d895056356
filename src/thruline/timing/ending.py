"""How a message ends, told for people: a mark for pictures and a few words."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from thruline.path.outcome import Outcome
from thruline.path.unplugged import Break
from thruline.rig.cable import Jack
from thruline.rig.chart import Governs
from thruline.rig.unit import Unit, setting_for
from thruline.timing.fate import Fate


class Mark(StrEnum):
    """What a picture shows at the end of a message's way."""

    DOT = "dot"
    """It does what it says."""
    CROSS = "cross"
    """It does not."""
    RING = "ring"
    """Nothing follows from it, or nobody can tell."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ending:
    """How a message ends at one unit. `fate` is None where it never arrives."""

    mark: Mark
    fate: Fate | None
    says: str


_ENDS: Mapping[Fate, tuple[Mark, str]] = MappingProxyType(
    {
        Fate.OBEYED: (Mark.DOT, "obeyed"),
        Fate.PREPARES: (Mark.DOT, "taken: a selection"),
        Fate.HELD: (Mark.DOT, "kept, and obeyed when it has loaded"),
        Fate.LOST: (Mark.CROSS, "lost: it is loading and deaf meanwhile"),
        Fate.OTHER_CHANNEL: (Mark.CROSS, "left alone: not on its channel"),
        Fate.NOT_TAKEN: (Mark.CROSS, "refused: it takes no such messages as it is built or set"),
        Fate.NO_PROGRAM: (Mark.CROSS, "no effect: it has no such program"),
        Fate.NO_CONTROL: (Mark.CROSS, "no effect: it has no control of this number"),
        Fate.OUT_OF_RANGE: (Mark.CROSS, "refused: outside what the control takes"),
        Fate.DEAD_ZONE: (Mark.CROSS, "no effect: between two choices of the control"),
        Fate.HALF: (Mark.CROSS, "half of a pair: the other half stays as it was before"),
        Fate.NOT_CONCERNED: (Mark.RING, "changes no program and no control"),
        Fate.CANNOT_TELL: (Mark.RING, "cannot be told: its chart does not say"),
    }
)


def ending_at(unit: Unit, fate: Fate) -> Ending:
    """How a message ends that has reached the unit it is meant for."""
    mark, says = _ENDS[fate]
    if fate is Fate.OTHER_CHANNEL and unit.channels:
        says = f"left alone: it listens to channel {', '.join(map(str, unit.channels))}"
    return Ending(mark=mark, fate=fate, says=says)


NOBODY = Ending(mark=Mark.CROSS, fate=None, says="for nobody: no unit answers it")
"""A message that some units hear and none obeys."""
UNJUDGED = Ending(mark=Mark.RING, fate=None, says="nobody said which unit it is for")
"""The same, of other bytes that a person has put into the controller's memory."""


def never_arrives(says: str) -> Ending:
    """How a message ends that does not get there."""
    return Ending(mark=Mark.CROSS, fate=None, says=f"never arrives: {says}")


def silence_in_words(units: Mapping[str, Unit], found: Break) -> str:
    """What stops messages at one place: `Pippin Reverb MIDI OUT is set to "own"`."""
    jack, unit = found.jack, units.get(found.unit)
    if jack is None or unit is None:
        return found.why
    match found.outcome:
        case Outcome.NOT_PASSED_ON | Outcome.NOT_SENT | Outcome.WAY_UNTOLD:
            setting = setting_for(unit, Governs.OUTPUT, jack.socket)
            if setting is not None:
                return f'{_socket(unit, jack)} is set to "{unit.settings[setting.id]}"'
            return f"{_socket(unit, jack)} passes nothing on"
        case Outcome.NOT_PLUGGED_IN:
            return f"nothing is plugged into {_socket(unit, jack)}"
        case Outcome.HELD_BACK | Outcome.FILTER_UNTOLD:
            return f"{_socket(unit, jack)} holds such messages back"
        case Outcome.LOST | Outcome.LINK_UNTOLD if found.link is not None:
            other = units[found.link.start.unit].name
            says = found.link.state.says.partition(":")[0].rstrip(".")
            return f"cable from {other} to {unit.name}: {says[0].lower()}{says[1:]}"
        case _:
            return f"{unit.name}: {found.why}"


def _socket(unit: Unit, jack: Jack) -> str:
    """A socket by its unit's name and what is printed beside it."""
    socket = unit.chart.sockets.get(jack.socket)
    marked = socket.marked if socket else ""
    return f"{unit.name} {marked or jack.socket.replace('-', ' ').upper()}"
