"""One value in its forms: what was written, the number on the wire, what the unit shows.

Rounding is the same everywhere: the nearest step, and upwards from the middle (50 % of 127 is 63.5,
so 64).
"""

import math
import re
from dataclasses import dataclass
from enum import StrEnum


class ControlKind(StrEnum):
    """How a unit reads the value of a control."""

    RANGE = "range"
    SWITCH = "switch"
    """Off up to 63, on from 64 (MIDI 1.0)."""
    STEPS = "steps"
    """Labelled zones of values."""
    MOMENTARY = "momentary"
    """Acts while pressed; nothing stays."""
    TOGGLE_ANY = "toggle-any"
    """Any value flips it, so its state cannot be known from what was sent."""


class ControlMessage(StrEnum):
    """The kind of message that carries a control."""

    CC = "cc"
    CC14 = "cc14"
    RPN = "rpn"
    NRPN = "nrpn"


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """What the display shows from the lowest to the highest wire value."""

    unit: str
    low: float
    high: float
    log: bool = False
    decimals: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """Wire values `low` to `high` that mean one labelled choice."""

    label: str
    low: int
    high: int

    @property
    def middle(self) -> int:
        """The value to send for it: furthest from both edges."""
        return (self.low + self.high + 1) // 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Control:
    """One parameter that a control change reaches. None means that the chart does not say."""

    id: str
    name: str
    number: int
    message: ControlMessage = ControlMessage.CC
    kind: ControlKind = ControlKind.RANGE
    low: int = 0
    high: int = 127
    scale: Scale | None = None
    zones: tuple[Zone, ...] = ()
    stored: bool | None = None
    expression: str | None = None
    power_up: int | None = None
    gain: str = "none"


@dataclass(frozen=True, slots=True)
class Value:
    """A value in its three forms."""

    written: str
    wire: int
    shown: str


@dataclass(frozen=True, slots=True)
class NotUnderstood:
    """Why a written value makes no sense for a control, and one that would."""

    written: str
    why: str
    example: str


def half_up(number: float) -> int:
    """The nearest whole number, a tie upwards."""
    return math.floor(number + 0.5)


_NUMBER = re.compile(r"([+-]?\d+(?:[.,]\d+)?)\s*(\S.*)?$")


def read_value(control: Control, written: str | int | float | bool) -> Value | NotUnderstood:
    """The forms of a value as a musician writes it.

    Understands wire numbers (64), percent of the range ("50%"), the control's own scale ("350 ms"),
    labels of its zones, and "on" / "off" / "press" where it is a switch. A number without quotes is
    a wire number.
    """
    text = _plain(written)
    is_number = isinstance(written, int | float) and not isinstance(written, bool)
    wire = _wire_of(control, text, is_number=is_number)
    if isinstance(wire, str):
        return NotUnderstood(text, wire, example_for(control))
    if not control.low <= wire <= control.high:
        why = f"{text} is outside {control.low} to {control.high}"
        return NotUnderstood(text, why, example_for(control))
    return Value(text, wire, shown(control, wire))


def _plain(written: str | int | float | bool) -> str:
    if isinstance(written, bool):
        return "on" if written else "off"
    return f"{written:g}" if isinstance(written, float) else str(written).strip()


def _wire_of(control: Control, text: str, *, is_number: bool) -> int | str:
    """The wire value, or the reason why there is none."""
    word = text.lower()
    labelled = next((zone for zone in control.zones if zone.label.lower() == word), None)
    if labelled is not None:
        return labelled.middle if not is_number else _wire_or_label(control, labelled)
    if word in ("on", "off") and control.kind in (ControlKind.SWITCH, ControlKind.MOMENTARY):
        return control.high if word == "on" else control.low
    if word in ("on", "off") and control.kind is ControlKind.RANGE:
        return f'"{text}" is for a switch, and {control.name} has a range'
    if word in ("press", "flip") and control.kind in (
        ControlKind.MOMENTARY,
        ControlKind.TOGGLE_ANY,
    ):
        return control.high
    number = _NUMBER.match(text)
    if number is None:
        return f'"{text}" is not a value of {control.name}'
    return _scaled(
        control, float(number[1].replace(",", ".")), number[2] or "", is_number=is_number
    )


def _wire_or_label(control: Control, zone: Zone) -> int | str:
    """The number that is also a zone's label, if it lies in that zone; else why that is unclear."""
    number = float(zone.label)
    if zone.low <= number <= zone.high and number.is_integer():
        return int(number)
    return (
        f"{zone.label} is a wire number and also a choice of {control.name}; "
        f'the choice is written "{zone.label}", in quotes'
    )


def _scaled(control: Control, amount: float, unit: str, *, is_number: bool) -> int | str:
    """The wire value of a number with its unit, or the reason why there is none."""
    scale = control.scale
    if scale is not None and unit.lower() == scale.unit.lower() and (unit or not is_number):
        return wire_at(control, scale, amount)
    if unit == "%":
        if not 0 <= amount <= 100:
            return f"{amount:g} % is outside 0 to 100 %"
        return control.low + half_up(amount / 100 * (control.high - control.low))
    if unit:
        return f'"{unit}" is not a measure that {control.name} is shown in'
    if not amount.is_integer():
        return f"{amount:g} is not a whole wire number, and has no measure after it"
    if not is_number:
        return f"{amount:g} in quotes has no measure after it; a wire number has no quotes"
    return int(amount)


def wire_at(control: Control, scale: Scale, amount: float) -> int | str:
    """The wire value whose display is nearest to `amount`, or why there is none."""
    low, high = min(scale.low, scale.high), max(scale.low, scale.high)
    if not low <= amount <= high:
        return f"{amount:g} {scale.unit} is outside {low:g} to {high:g} {scale.unit}"
    if scale.log:
        share = math.log(amount / scale.low) / math.log(scale.high / scale.low)
    else:
        share = (amount - scale.low) / (scale.high - scale.low)
    return control.low + half_up(share * (control.high - control.low))


def shown(control: Control, wire: int) -> str:
    """What the unit displays for a wire value."""
    zone = zone_of(control, wire)
    if zone is not None:
        return zone.label
    if control.kind is ControlKind.SWITCH:
        return "on" if wire >= 64 else "off"
    scale = control.scale
    if scale is None:
        return str(wire)
    share = (wire - control.low) / max(1, control.high - control.low)
    if scale.log:
        amount = scale.low * (scale.high / scale.low) ** share
    else:
        amount = scale.low + share * (scale.high - scale.low)
    steps = 10**scale.decimals
    return f"{half_up(amount * steps) / steps:.{scale.decimals}f} {scale.unit}".strip()


def zone_of(control: Control, wire: int) -> Zone | None:
    """The zone that a wire value lies in; None in a dead part or when there are no zones."""
    return next((zone for zone in control.zones if zone.low <= wire <= zone.high), None)


def example_for(control: Control) -> str:
    """A value that this control understands, as it would be written in a document."""
    if control.kind is ControlKind.TOGGLE_ANY or control.kind is ControlKind.MOMENTARY:
        return '"press"'
    if control.zones:
        return f'"{control.zones[0].label}"'
    if control.kind is ControlKind.SWITCH:
        return '"on"'
    if control.scale is not None:
        return f'"{shown(control, (control.low + control.high) // 2)}"'
    return '"50%"'
