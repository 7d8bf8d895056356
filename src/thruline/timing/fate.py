"""The fates that a message can have at a unit."""

from enum import StrEnum


class Fate(StrEnum):
    """What a unit does with a message that reached it."""

    OBEYED = "obeyed"
    """It does what the message says."""
    PREPARES = "prepares"
    """Bank select or parameter select: it waits for the message that uses it."""
    HELD = "held"
    """It is busy loading and does what the message says afterwards."""
    LOST = "lost"
    """It is busy loading and deaf to control changes."""
    OTHER_CHANNEL = "other-channel"
    """The message is not on its channel."""
    NOT_TAKEN = "not-taken"
    """A setting or its nature keeps it from taking this kind of message."""
    NO_PROGRAM = "no-program"
    """It has no program of this number in this bank."""
    NO_CONTROL = "no-control"
    """Its chart knows no control of this number."""
    OUT_OF_RANGE = "out-of-range"
    """The value is outside what the control takes."""
    DEAD_ZONE = "dead-zone"
    """The value lies between the labelled zones of the control."""
    HALF = "half"
    """Half of a pair without the other: what it does depends on what was before."""
    NOT_CONCERNED = "not-concerned"
    """A kind of message that changes nothing in a unit's program or controls."""
    CANNOT_TELL = "cannot-tell"
    """A fact that the chart lacks decides it."""

    @property
    def is_good(self) -> bool:
        """Whether the message did, does or helps to do what it says."""
        return self in (Fate.OBEYED, Fate.PREPARES, Fate.HELD)
