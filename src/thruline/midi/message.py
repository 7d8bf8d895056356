"""The messages of the standard, as frozen values.

Numbers are those of the wire, except channels, which are 1 to 16 as people count them. A number
that no message can carry raises CannotUse, so a message that exists can be sent.
"""

from dataclasses import dataclass
from enum import StrEnum
from typing import Final, TypeAlias

from thruline.base.errors import CannotUse
from thruline.midi import specs
from thruline.midi.specs import CHANNELS, DATA_MAX, PAIR_MAX

BEND_CENTRE: Final = 0x2000
"""Pitch bend at rest: 00 40 on the wire."""


def check_number(what: str, number: int, *, low: int = 0, high: int = DATA_MAX) -> None:
    """Raise CannotUse unless `number` is `low` to `high`; `what` names it for a person."""
    if not low <= number <= high:
        raise CannotUse(f"{what} {number} cannot be sent: a MIDI message carries {low} to {high}")


def check_channel(channel: int) -> None:
    """Raise CannotUse unless `channel` is 1 to 16."""
    check_number("channel", channel, low=1, high=CHANNELS)


@dataclass(frozen=True, slots=True)
class NoteOff:
    """A note ends. No `velocity` is the usual form: a note on with velocity 0."""

    channel: int
    note: int
    velocity: int | None = None

    def __post_init__(self) -> None:
        check_channel(self.channel)
        check_number("note", self.note)
        if self.velocity is not None:
            check_number("velocity", self.velocity)


@dataclass(frozen=True, slots=True)
class NoteOn:
    """A note begins; `velocity` is 1 to 127, because 0 would end it."""

    channel: int
    note: int
    velocity: int

    def __post_init__(self) -> None:
        check_channel(self.channel)
        check_number("note", self.note)
        check_number("velocity of a note on", self.velocity, low=1)


@dataclass(frozen=True, slots=True)
class PolyPressure:
    """Pressure on one held note."""

    channel: int
    note: int
    pressure: int

    def __post_init__(self) -> None:
        check_channel(self.channel)
        check_number("note", self.note)
        check_number("pressure", self.pressure)


@dataclass(frozen=True, slots=True)
class ControlChange:
    """A control takes a value. Controls 120 to 127 are the channel mode messages."""

    channel: int
    control: int
    value: int

    def __post_init__(self) -> None:
        check_channel(self.channel)
        check_number("control", self.control)
        check_number("value", self.value)


@dataclass(frozen=True, slots=True)
class ProgramChange:
    """A unit is to take one of its programs, 0 to 127 whatever its display counts from."""

    channel: int
    program: int

    def __post_init__(self) -> None:
        check_channel(self.channel)
        check_number("program", self.program)


@dataclass(frozen=True, slots=True)
class ChannelPressure:
    """Pressure on a whole channel."""

    channel: int
    pressure: int

    def __post_init__(self) -> None:
        check_channel(self.channel)
        check_number("pressure", self.pressure)


@dataclass(frozen=True, slots=True)
class PitchBend:
    """A bend of 0 to 16383; 8192 is the centre."""

    channel: int
    bend: int = BEND_CENTRE

    def __post_init__(self) -> None:
        check_channel(self.channel)
        check_number("bend", self.bend, high=PAIR_MAX)


@dataclass(frozen=True, slots=True)
class SystemExclusive:
    """A message in a maker's own words: the bytes between F0 and F7, each 0 to 127."""

    data: bytes

    def __post_init__(self) -> None:
        if not self.data.isascii():
            at = next(at for at, byte in enumerate(self.data) if byte > DATA_MAX)
            raise CannotUse(
                f"system exclusive data holds {self.data[at]:02X} hex at byte {at}: every byte "
                "between F0 and F7 must be 00 to 7F, so pack the data into 7 bits first"
            )


@dataclass(frozen=True, slots=True)
class QuarterFrame:
    """One eighth of a time code: which `piece`, 0 to 7, and its `value`, 0 to 15."""

    piece: int
    value: int

    def __post_init__(self) -> None:
        check_number("piece of a quarter frame", self.piece, high=7)
        check_number("value of a quarter frame", self.value, high=15)


@dataclass(frozen=True, slots=True)
class SongPosition:
    """Where in the song to go, in sixteenth notes from its start: 0 to 16383."""

    position: int

    def __post_init__(self) -> None:
        check_number("song position", self.position, high=PAIR_MAX)


@dataclass(frozen=True, slots=True)
class SongSelect:
    """Which song comes next."""

    song: int

    def __post_init__(self) -> None:
        check_number("song", self.song)


@dataclass(frozen=True, slots=True)
class TuneRequest:
    """Analogue instruments are to tune themselves."""


class RealTimeKind(StrEnum):
    """What a real-time byte says."""

    CLOCK = specs.CLOCK.name
    """One twenty-fourth of a quarter note has passed."""
    START = specs.START.name
    """Play from the beginning at the next clock."""
    CONTINUE = specs.CONTINUE.name
    """Play on from here at the next clock."""
    STOP = specs.STOP.name
    """Stop, and remember where."""
    ACTIVE_SENSING = specs.ACTIVE_SENSING.name
    """The sender is still there."""
    SYSTEM_RESET = specs.SYSTEM_RESET.name
    """Everybody back to how they were at power-up."""


@dataclass(frozen=True, slots=True)
class RealTime:
    """A single byte that may come between any two others."""

    kind: RealTimeKind


ChannelMessage: TypeAlias = (
    NoteOff | NoteOn | PolyPressure | ControlChange | ProgramChange | ChannelPressure | PitchBend
)
"""What is meant for one channel."""

SystemMessage: TypeAlias = (
    SystemExclusive | QuarterFrame | SongPosition | SongSelect | TuneRequest | RealTime
)
"""What is meant for every unit on the line."""

Message: TypeAlias = ChannelMessage | SystemMessage
"""Everything that can be said."""

TimedMessage: TypeAlias = tuple[int, Message]
"""A message and when it starts, in microseconds."""
