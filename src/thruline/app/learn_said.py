"""What a person says of a board that is to be learned, and what is said to the person."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from thruline.audit.digits import is_number
from thruline.base.address import Address
from thruline.base.errors import CannotUse

LAST_CHANNEL = 16


@dataclass(frozen=True, slots=True)
class SaidUnit:
    """What a person says of a channel: the id of the unit there, and its chart (None: unknown)."""

    id: str
    chart: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What a person says of the board.

    `controller` is the id of its chart. `units` are by channel, `presets` names by number,
    `pedals` by sweep the id of the controller's input.
    """

    name: str = "Learned board"
    controller: str | None = None
    units: Mapping[int, SaidUnit] = field(default_factory=dict)
    presets: Mapping[int, str] = field(default_factory=dict)
    pedals: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Remark:
    """What remains unknown, and where in the document; None for the whole of it."""

    where: Address | None
    says: str


def said_unit(word: str) -> tuple[int, SaidUnit]:
    """`3=delay:bramley-delay`, or `3=bramley-delay`: a channel, a unit's id, its chart.

    Raises CannotUse for anything else.
    """
    channel, equals, rest = word.partition("=")
    unit, colon, chart = rest.partition(":")
    if not equals or not is_number(channel) or not 1 <= int(channel) <= LAST_CHANNEL or not unit:
        raise CannotUse(
            f'"{word}" is no unit; write a channel, its id and its chart: 3=delay:bramley-delay '
            "(without the chart when there is none: 3=delay:)"
        )
    return int(channel), SaidUnit(unit, (chart or None) if colon else unit)


def said_preset(word: str) -> tuple[int, str]:
    """`12=Balcony`: the number of a preset and its name. Raises CannotUse for anything else."""
    number, equals, name = word.partition("=")
    if not equals or not is_number(number.strip()) or not name.strip():
        raise CannotUse(f'"{word}" names no preset; write its number and its name: 12=Balcony')
    return int(number), name.strip()


def said_pedal(word: str) -> tuple[str, str]:
    """`Swell=exp-1`: a sweep and the input of its pedal. Raises CannotUse for anything else."""
    sweep, equals, socket = word.rpartition("=")
    if not equals or not sweep.strip() or not socket.strip():
        raise CannotUse(
            f'"{word}" names no pedal; write the sweep and the controller\'s input: Swell=exp-1'
        )
    return sweep.strip(), socket.strip()
