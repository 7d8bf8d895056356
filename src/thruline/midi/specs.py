"""The one table of message kinds; everything else about bytes and messages reads it.

Source: MIDI 1.0 Detailed Specification 4.2.1, tables I to VI and page A-2.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

DATA_MAX: Final = 0x7F
"""The largest data byte: bit 7 clear makes a byte data, bit 7 set makes it a status."""

PAIR_MAX: Final = 0x3FFF
"""The largest value of two data bytes together: 14 bits."""

CHANNELS: Final = 16
"""Channels on one line: 0 to 15 on the wire, 1 to 16 as shown to people."""

FIRST_STATUS: Final = 0x80
FIRST_SYSTEM_STATUS: Final = 0xF0


class Family(StrEnum):
    """The families of the standard."""

    CHANNEL = "channel"
    """Channel voice and channel mode messages: the low half of the status is the channel."""
    EXCLUSIVE = "system exclusive"
    """The start of a message of any length."""
    COMMON = "system common"
    """For every unit on the line, whatever its channel."""
    REAL_TIME = "system real time"
    """A single byte that may come between any two others."""


class Running(StrEnum):
    """What a status does to running status, in a receiver and in its sender alike."""

    SETS = "sets"
    """Data bytes alone may follow as further messages of the same kind and channel."""
    CLEARS = "clears"
    """No status is in force afterwards."""
    KEEPS = "keeps"
    """Whatever was in force, and any message half heard, stays."""


@dataclass(frozen=True, slots=True, eq=False)
class Kind:
    """One row of the table.

    `status` is the lowest status byte of the kind (a channel kind fills sixteen), `data` names
    its data bytes in the order they are sent. A kind that is not `defined` must never be sent and
    is ignored when heard.
    """

    status: int
    name: str
    data: tuple[str, ...]
    family: Family
    running: Running
    defined: bool = True

    @property
    def length(self) -> int | None:
        """Bytes of one whole message, status included; None for system exclusive."""
        return None if self.family is Family.EXCLUSIVE else 1 + len(self.data)


_CH, _EX, _CO, _RT = Family.CHANNEL, Family.EXCLUSIVE, Family.COMMON, Family.REAL_TIME
_SETS, _CLEARS, _KEEPS = Running.SETS, Running.CLEARS, Running.KEEPS

NOTE_OFF: Final = Kind(0x80, "note off", ("note", "velocity"), _CH, _SETS)
NOTE_ON: Final = Kind(0x90, "note on", ("note", "velocity"), _CH, _SETS)
POLY_PRESSURE: Final = Kind(0xA0, "polyphonic pressure", ("note", "pressure"), _CH, _SETS)
CONTROL_CHANGE: Final = Kind(0xB0, "control change", ("control", "value"), _CH, _SETS)
PROGRAM_CHANGE: Final = Kind(0xC0, "program change", ("program",), _CH, _SETS)
CHANNEL_PRESSURE: Final = Kind(0xD0, "channel pressure", ("pressure",), _CH, _SETS)
PITCH_BEND: Final = Kind(0xE0, "pitch bend", ("bend LSB", "bend MSB"), _CH, _SETS)

EXCLUSIVE: Final = Kind(0xF0, "system exclusive", (), _EX, _CLEARS)
QUARTER_FRAME: Final = Kind(0xF1, "time code quarter frame", ("piece and value",), _CO, _CLEARS)
SONG_POSITION: Final = Kind(0xF2, "song position", ("position LSB", "position MSB"), _CO, _CLEARS)
SONG_SELECT: Final = Kind(0xF3, "song select", ("song",), _CO, _CLEARS)
TUNE_REQUEST: Final = Kind(0xF6, "tune request", (), _CO, _CLEARS)
END_OF_EXCLUSIVE: Final = Kind(0xF7, "end of exclusive", (), _CO, _CLEARS)

CLOCK: Final = Kind(0xF8, "clock", (), _RT, _KEEPS)
START: Final = Kind(0xFA, "start", (), _RT, _KEEPS)
CONTINUE: Final = Kind(0xFB, "continue", (), _RT, _KEEPS)
STOP: Final = Kind(0xFC, "stop", (), _RT, _KEEPS)
ACTIVE_SENSING: Final = Kind(0xFE, "active sensing", (), _RT, _KEEPS)
# Alone among real time: a receiver that obeys it goes back to how it was at power-up.
SYSTEM_RESET: Final = Kind(0xFF, "system reset", (), _RT, _CLEARS)

_UNDEFINED = (
    Kind(0xF4, "undefined F4", (), _CO, _CLEARS, defined=False),
    Kind(0xF5, "undefined F5", (), _CO, _CLEARS, defined=False),
    Kind(0xF9, "undefined F9", (), _RT, _KEEPS, defined=False),
    Kind(0xFD, "undefined FD", (), _RT, _KEEPS, defined=False),
)

KINDS: Final[tuple[Kind, ...]] = (
    *(NOTE_OFF, NOTE_ON, POLY_PRESSURE, CONTROL_CHANGE),
    *(PROGRAM_CHANGE, CHANNEL_PRESSURE, PITCH_BEND),
    *(EXCLUSIVE, QUARTER_FRAME, SONG_POSITION, SONG_SELECT, TUNE_REQUEST, END_OF_EXCLUSIVE),
    *(CLOCK, START, CONTINUE, STOP, ACTIVE_SENSING, SYSTEM_RESET),
    *_UNDEFINED,
)
"""Every kind there is, the undefined ones last."""


def _statuses(kind: Kind) -> range:
    """The status bytes of one kind."""
    return range(kind.status, kind.status + (CHANNELS if kind.family is Family.CHANNEL else 1))


KIND_OF_STATUS: Final[Mapping[int, Kind]] = {
    status: kind for kind in KINDS for status in _statuses(kind)
}
"""The kind of every status byte, 80 to FF hex."""

MODE_NAMES: Final[Mapping[int, str]] = {
    120: "all sound off",
    121: "reset all controllers",
    122: "local control",
    123: "all notes off",
    124: "omni off",
    125: "omni on",
    126: "mono on",
    127: "poly on",
}
"""Control numbers that are channel mode messages, not controls."""
