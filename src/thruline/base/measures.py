"""Named whole numbers for measures, and the few constants that physics and the standard fix.

Whole numbers keep the same rig giving the same answer on every machine.
"""

from typing import NewType

Microseconds = NewType("Microseconds", int)
Millimetres = NewType("Millimetres", int)
Milliamps = NewType("Milliamps", int)
Millivolts = NewType("Millivolts", int)

BYTE_US = 320
"""One byte on a MIDI line: 10 bits (start, eight data, stop) at 31 250 baud (MIDI 1.0)."""

BYTES_PER_SECOND = 3125
"""What a MIDI line carries when it is full: 31 250 baud / 10 bits a byte."""

CLOCKS_PER_QUARTER = 24
"""Timing clocks in a quarter note (MIDI 1.0)."""


def shown_ms(microseconds: int) -> str:
    """Microseconds as a person reads them: `12.3 ms`, `0.96 ms`, `1.2 s`."""
    if microseconds >= 1_000_000:
        return f"{microseconds / 1_000_000:.1f} s"
    if microseconds >= 10_000 or microseconds == 0:
        return f"{microseconds / 1000:.1f} ms"
    return f"{microseconds / 1000:.2f} ms"
