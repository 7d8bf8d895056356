"""Kinds of check, where they are made, and what is known of each: closed lists."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum


class Place(StrEnum):
    """Where the board is, and who makes the checks."""

    BENCH = "bench"
    TELEPHONE = "telephone"
    STAGE = "stage"


class Trial(StrEnum):
    """The kinds of check."""

    GLANCE = "glance"
    LOOK = "look"
    REPEAT = "repeat"
    LAMP = "lamp"
    STRAIGHT = "straight"
    SWAP = "swap"
    TESTER = "tester"
    PLUG = "plug"
    WIGGLE = "wiggle"
    MENU = "menu"
    CHANNEL = "channel"
    NUMBERS = "numbers"
    HAND = "hand"
    POWER = "power"
    SUPPLY = "supply"
    LOAD = "load"
    SOUND = "sound"
    IDENTITY = "identity"
    ENTRY = "entry"
    WRITTEN = "written"
    PAGE = "page"
    PAUSES = "pauses"
    LISTEN = "listen"
    SEND = "send"
    TEMPO = "tempo"
    NOISE = "noise"
    WHINE = "whine"
    HUM = "hum"
    USB_NOISE = "usb-noise"
    PEDAL = "pedal"
    PEDAL_LEAD = "lead"
    LOOP = "loop"
    BRIDGE = "bridge"
    LOOPBACK = "loopback"
    RAMP = "ramp"
    STATUS = "status"
    DUMP = "dump"
    RELEASE = "release"
    HOLD = "hold"
    CLOCKED = "clocked"
    BOOT = "boot"
    CONTROLS = "controls"
    BUFFER = "buffer"


@dataclass(frozen=True, slots=True, kw_only=True)
class Habit:
    """One kind of check.

    `asks` has the fields of a check in braces. Of `answers` the first is what a good board shows.
    `seconds` are those on the bench, by telephone, on a stage; None where it cannot be done.
    `sure` is how often the answer is right.
    """

    asks: str
    answers: Mapping[str, str]
    seconds: tuple[float | None, float | None, float | None]
    sure: float
    caution: str = ""
