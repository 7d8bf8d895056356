"""Sets of status bytes (MIDI 1.0), to say what a unit does not pass on.

Sets combine with `|`, `&` and `-`: `REAL_TIME - CLOCK`, `CONTROL_CHANGES & on_channels(3)`.
"""

from typing import TypeAlias

Statuses: TypeAlias = frozenset[int]

FIRST_SYSTEM = 0xF0
"""Status bytes from here on belong to no channel, and never become running status."""

FIRST_REAL_TIME = 0xF8
"""Status bytes from here on are whole messages that may stand between any two other bytes."""

SYSTEM_EXCLUSIVE: Statuses = frozenset({0xF0})
SYSTEM_COMMON: Statuses = frozenset(range(0xF1, 0xF8))
REAL_TIME: Statuses = frozenset(range(FIRST_REAL_TIME, 0x100))
CLOCK: Statuses = frozenset({0xF8})
TRANSPORT: Statuses = frozenset({0xFA, 0xFB, 0xFC})
"""Start, continue and stop."""
ACTIVE_SENSING: Statuses = frozenset({0xFE})

NOTES: Statuses = frozenset(range(0x80, 0xB0))
"""Note off, note on and the pressure of one key."""
CONTROL_CHANGES: Statuses = frozenset(range(0xB0, 0xC0))
PROGRAM_CHANGES: Statuses = frozenset(range(0xC0, 0xD0))
CHANNEL_MESSAGES: Statuses = frozenset(range(0x80, FIRST_SYSTEM))


def on_channels(*channels: int) -> Statuses:
    """Every channel message on these channels; channels count from 1 to 16."""
    return frozenset(status for status in CHANNEL_MESSAGES if (status & 0x0F) + 1 in channels)
