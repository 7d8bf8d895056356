"""The nearest value that a control can have."""

import re
from collections.abc import Iterator

from thruline.base.address import Address
from thruline.base.edit import set_to
from thruline.proof.finding import Mend
from thruline.rig.values import Control, NotUnderstood, Value, read_value

_NUMBER = re.compile(r"-?\d+")


def nearest_value(control: Control, value: NotUnderstood, where: Address) -> Iterator[Mend]:
    """Write the end of the range where a wire number lies beyond it, else the control's example."""
    if _NUMBER.fullmatch(value.written):
        wire = min(max(int(value.written), control.low), control.high)
        if isinstance(read_value(control, wire), Value):
            yield Mend(f"Write {wire}, the nearest it can have", (set_to(where, wire),))
        return
    example = value.example.strip('"')
    if isinstance(read_value(control, example), Value):
        yield Mend(f'Write "{example}"', (set_to(where, example),))
