"""How a journey ends: a closed list, with "cannot be told" among it."""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType


class Quality(StrEnum):
    """Whether an outcome is as it should be."""

    GOOD = "good"
    BAD = "bad"
    CANNOT_TELL = "cannot-tell"


class Outcome(StrEnum):
    """What becomes of a message at one place of its way; `says` gives the sentence for each."""

    TAKEN = "taken"
    NOT_FOR_IT = "not-for-it"
    NO_LISTENER = "no-listener"

    NOT_SENT = "not-sent"
    LOST = "lost"
    NOT_PASSED_ON = "not-passed-on"
    NOT_JOINED = "not-joined"
    HELD_BACK = "held-back"
    REFUSED = "refused"
    GOES_ROUND = "goes-round"
    NOT_PLUGGED_IN = "not-plugged-in"
    NO_SOCKET = "no-socket"

    LINK_UNTOLD = "link-untold"
    WAY_UNTOLD = "way-untold"
    FILTER_UNTOLD = "filter-untold"
    CHANNEL_UNTOLD = "channel-untold"
    TAKING_UNTOLD = "taking-untold"

    @property
    def quality(self) -> Quality:
        """Good, bad, or cannot be told."""
        return _KNOWN[self][0]

    @property
    def says(self) -> str:
        """One sentence for people."""
        return _KNOWN[self][1]


_KNOWN: Mapping[Outcome, tuple[Quality, str]] = MappingProxyType(
    {
        Outcome.TAKEN: (
            Quality.GOOD,
            "It reaches the unit, is for the unit, and the unit takes such messages.",
        ),
        Outcome.NOT_FOR_IT: (
            Quality.GOOD,
            "It reaches the unit, which leaves it alone: it is for another channel.",
        ),
        Outcome.NO_LISTENER: (
            Quality.GOOD,
            "It reaches a unit that acts on no messages itself.",
        ),
        Outcome.NOT_SENT: (
            Quality.BAD,
            "The output is not set to send the unit's own messages.",
        ),
        Outcome.LOST: (
            Quality.BAD,
            "The link does not carry it.",
        ),
        Outcome.NOT_PASSED_ON: (
            Quality.BAD,
            "The output is not set to pass on what comes in.",
        ),
        Outcome.NOT_JOINED: (
            Quality.BAD,
            "The output passes on other inputs, but not the one that it came in by.",
        ),
        Outcome.HELD_BACK: (
            Quality.BAD,
            "The output never passes on this kind of message.",
        ),
        Outcome.REFUSED: (
            Quality.BAD,
            "It reaches the unit, but the unit does not take such messages as it is built or set.",
        ),
        Outcome.GOES_ROUND: (
            Quality.BAD,
            "It comes back to an output that it has passed before.",
        ),
        Outcome.NOT_PLUGGED_IN: (
            Quality.BAD,
            "No cable is plugged in where it would have to pass.",
        ),
        Outcome.NO_SOCKET: (
            Quality.BAD,
            "The unit has no socket for it.",
        ),
        Outcome.LINK_UNTOLD: (
            Quality.CANNOT_TELL,
            "Whether the link carries it depends on the units.",
        ),
        Outcome.WAY_UNTOLD: (
            Quality.CANNOT_TELL,
            "What the output is set to cannot be told.",
        ),
        Outcome.FILTER_UNTOLD: (
            Quality.CANNOT_TELL,
            "The output may hold it back: which messages it holds back cannot be told.",
        ),
        Outcome.CHANNEL_UNTOLD: (
            Quality.CANNOT_TELL,
            "It reaches the unit, but which channel the unit hears cannot be told.",
        ),
        Outcome.TAKING_UNTOLD: (
            Quality.CANNOT_TELL,
            "It reaches the unit, but whether the unit takes such messages cannot be told.",
        ),
    }
)
