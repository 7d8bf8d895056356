"""How the numbers of control changes reach a chart's controls: one table for each chart."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from thruline.rig.values import Control, ControlMessage


class Part(StrEnum):
    """Which part of a control's value a control change carries."""

    WHOLE = "whole"
    COARSE = "coarse"
    """The first of a 14-bit pair (control 0 to 31); sets the fine part to 0."""
    FINE = "fine"
    """The second of a 14-bit pair (32 above the first)."""


@dataclass(frozen=True, slots=True)
class Reading:
    """A control, and the part of it that a control change with a certain number carries."""

    control: Control
    part: Part


@dataclass(frozen=True, slots=True)
class Readings:
    """`plain`: control number to readings. `parameters`: (message kind, number) to control."""

    plain: Mapping[int, tuple[Reading, ...]]
    parameters: Mapping[tuple[ControlMessage, int], Control]


def readings_of(controls: Mapping[str, Control]) -> Readings:
    """The table for the controls of one chart."""
    plain: dict[int, list[Reading]] = {}
    parameters: dict[tuple[ControlMessage, int], Control] = {}
    for control in controls.values():
        match control.message:
            case ControlMessage.CC:
                plain.setdefault(control.number, []).append(Reading(control, Part.WHOLE))
            case ControlMessage.CC14:
                plain.setdefault(control.number, []).append(Reading(control, Part.COARSE))
                plain.setdefault(control.number + 32, []).append(Reading(control, Part.FINE))
            case _:
                parameters[control.message, control.number] = control
    return Readings(
        MappingProxyType({number: tuple(found) for number, found in plain.items()}),
        MappingProxyType(parameters),
    )
