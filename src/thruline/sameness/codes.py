"""A value, or what is known instead of one, as one whole number that fits 32 bits.

    -3                 no message is obeyed here
    -2                 cannot be told
    -1                 keeps what it had
    0 to 16383         a wire value, a bank byte, or a relay loop out (0) or in (1)
    from 2^22          what a program holds, by bank and number; of a unit: the program itself
    2^24               what the unit powers up with, where its chart does not say

Two codes from 0 on are two different values: a program that a person has stored is taken to hold
something else than any other program and any number that was sent.
"""

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from thruline.rig.programs import WireProgram
from thruline.rig.values import Control, ControlKind, zone_of

Codes: TypeAlias = NDArray[np.int32]
Truths: TypeAlias = NDArray[np.bool_]
Places: TypeAlias = NDArray[np.intp]
Marks: TypeAlias = NDArray[np.int8]

NOTHING, UNTOLD, KEEPS = -3, -2, -1
OWN = 1 << 22
AS_POWERED = 1 << 24
BEYOND = 1 << 25
"""Above every code."""
OUT, IN = 0, 1
"""A relay loop."""
PROGRAMS_IN_A_BANK = 128


def own_code(program: WireProgram) -> int:
    """The code of a program, and of whatever it holds."""
    return OWN + program.bank * PROGRAMS_IN_A_BANK + program.program


def program_of(code: int) -> WireProgram | None:
    """The program that a code stands for, if it stands for one."""
    if not OWN <= code < AS_POWERED:
        return None
    return WireProgram(*divmod(code - OWN, PROGRAMS_IN_A_BANK))


def is_wire(code: int) -> bool:
    """Whether a code is a plain value, as sent."""
    return 0 <= code < OWN


def is_coarse(control: Control) -> bool:
    """Whether a unit tells fewer values of a control apart than can be sent."""
    return control.kind is ControlKind.SWITCH or bool(control.zones)


def seen(control: Control, wire: int) -> int:
    """The one value that stands for all that a unit cannot tell from `wire`.

    A switch knows off (up to 63) and on (from 64, MIDI 1.0), a control with zones knows its zones.
    """
    zone = zone_of(control, wire)
    if zone is not None:
        return zone.middle
    if control.kind is ControlKind.SWITCH:
        return control.high if wire >= 64 else control.low
    return wire
