"""The nearest value that a control can have."""

import re
from collections.abc import Iterator, Mapping

from thruline.base.address import Address
from thruline.base.edit import set_to
from thruline.proof.finding import Mend
from thruline.rig.values import Control, NotUnderstood, Value, Zone, read_value, zone_of

_NUMBER = re.compile(r"-?\d+")
_AMOUNT = re.compile(r"(-?\d+(?:[.,]\d+)?)\s*(\S.*)?")
_MEASURE = re.compile(r"(-?\d+(?:[.,]\d+)?)\s*(\S.*)")
_KINDS: tuple[Mapping[str, float], ...] = (
    {"ms": 1, "s": 1_000, "sec": 1_000, "min": 60_000},
    {"hz": 1, "khz": 1_000},
    {"mm": 1, "cm": 10, "m": 1_000},
)
"""Measures that can stand for each other, with their sizes."""


def nearest_value(control: Control, value: NotUnderstood, where: Address) -> Iterator[Mend]:
    """Write the same in the control's own measure, or the end of the range that it lies beyond.

    Nothing is offered where nothing of what is written can be kept: any value would be a guess.
    """
    if _NUMBER.fullmatch(value.written):
        wire = min(max(int(value.written), control.low), control.high)
        if control.zones and zone_of(control, wire) is None:
            label = nearest_zone(control, wire).label
            yield Mend(f'Write "{label}", the nearest it can have', (set_to(where, label),))
        elif isinstance(read_value(control, wire), Value):
            yield Mend(f"Write {wire}, the nearest it can have", (set_to(where, wire),))
        return
    meant = _converted(control, value.written) or _clipped(control, value.written)
    if meant is not None and isinstance(read_value(control, meant), Value):
        yield Mend(f'Write "{meant}"', (set_to(where, meant),))


def nearest_zone(control: Control, wire: int) -> Zone:
    """The choice whose edge is nearest to a value between choices."""
    return min(control.zones, key=lambda zone: min(abs(zone.low - wire), abs(zone.high - wire)))


def _converted(control: Control, written: str) -> str | None:
    """The same in the measure of the scale, where that is another of its kind or was left out."""
    found = _AMOUNT.fullmatch(written)
    if found is None or control.scale is None:
        return None
    amount, unit = float(found[1].replace(",", ".")), (found[2] or "").lower()
    own = control.scale.unit.lower()
    if not unit:
        return f"{amount:g} {control.scale.unit}" if own else None
    for sizes in _KINDS:
        if unit in sizes and own in sizes and unit != own:
            same = amount * sizes[unit] / sizes[own]
            return f"{same:.10g} {control.scale.unit}"
    return None


def _clipped(control: Control, written: str) -> str | None:
    """The nearest end of the scale, where a measure lies beyond it."""
    found = _MEASURE.fullmatch(written)
    if found is None:
        return None
    amount, unit = float(found[1].replace(",", ".")), found[2]
    if control.scale is not None and unit.lower() == control.scale.unit.lower():
        low, high = sorted((control.scale.low, control.scale.high))
    elif unit == "%":
        low, high = 0.0, 100.0
    else:
        return None
    return f"{min(max(amount, low), high):g} {unit}"
