"""The nearest value that a control can have."""

import re
from collections.abc import Iterator

from thruline.base.address import Address
from thruline.base.edit import set_to
from thruline.proof.finding import Mend
from thruline.rig.values import Control, NotUnderstood, Value, Zone, read_value, zone_of

_NUMBER = re.compile(r"-?\d+")
_MEASURE = re.compile(r"(-?\d+(?:[.,]\d+)?)\s*(\S.*)")


def nearest_value(control: Control, value: NotUnderstood, where: Address) -> Iterator[Mend]:
    """Write the end of the range where a wire number lies beyond it, else the control's example."""
    if _NUMBER.fullmatch(value.written):
        wire = min(max(int(value.written), control.low), control.high)
        if control.zones and zone_of(control, wire) is None:
            label = nearest_zone(control, wire).label
            yield Mend(f'Write "{label}", the nearest it can have', (set_to(where, label),))
        elif isinstance(read_value(control, wire), Value):
            yield Mend(f"Write {wire}, the nearest it can have", (set_to(where, wire),))
        return
    example = _clipped(control, value.written) or value.example.strip('"')
    if isinstance(read_value(control, example), Value):
        yield Mend(f'Write "{example}"', (set_to(where, example),))


def nearest_zone(control: Control, wire: int) -> Zone:
    """The choice whose edge is nearest to a value between choices."""
    return min(control.zones, key=lambda zone: min(abs(zone.low - wire), abs(zone.high - wire)))


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
