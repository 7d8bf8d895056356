"""Messages to bytes, with or without running status."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final, assert_never

from thruline.midi import specs
from thruline.midi.message import (
    ChannelMessage,
    ChannelPressure,
    ControlChange,
    Message,
    NoteOff,
    NoteOn,
    PitchBend,
    PolyPressure,
    ProgramChange,
    QuarterFrame,
    RealTime,
    RealTimeKind,
    SongPosition,
    SongSelect,
    SystemExclusive,
    TimedMessage,
    TuneRequest,
)
from thruline.midi.numbers import value_to_pair
from thruline.midi.specs import KIND_OF_STATUS, KINDS, Kind, Running

_REAL_TIME: Final = {
    RealTimeKind(kind.name): bytes((kind.status,))
    for kind in KINDS
    if kind.family is specs.Family.REAL_TIME and kind.defined
}
_EXCLUSIVE = bytes((specs.EXCLUSIVE.status,))
_END = bytes((specs.END_OF_EXCLUSIVE.status,))


def encode(message: Message) -> bytes:
    """The bytes of one message, its status included; the inverse of `decode`."""
    match message:
        case SystemExclusive(data):
            return _EXCLUSIVE + data + _END
        case QuarterFrame(piece, value):
            return bytes((specs.QUARTER_FRAME.status, piece << 4 | value))
        case SongPosition(position):
            coarse, fine = value_to_pair(position)
            return bytes((specs.SONG_POSITION.status, fine, coarse))
        case SongSelect(song):
            return bytes((specs.SONG_SELECT.status, song))
        case TuneRequest():
            return bytes((specs.TUNE_REQUEST.status,))
        case RealTime(kind):
            return _REAL_TIME[kind]
        case _:
            return _channel_bytes(message)


def _channel_bytes(message: ChannelMessage) -> bytes:
    """The bytes of a message for one channel."""
    channel = message.channel
    match message:
        case NoteOff(_, note, velocity):
            if velocity is None:
                return _on(channel, specs.NOTE_ON, note, 0)
            return _on(channel, specs.NOTE_OFF, note, velocity)
        case NoteOn(_, note, velocity):
            return _on(channel, specs.NOTE_ON, note, velocity)
        case PolyPressure(_, note, pressure):
            return _on(channel, specs.POLY_PRESSURE, note, pressure)
        case ControlChange(_, control, value):
            return _on(channel, specs.CONTROL_CHANGE, control, value)
        case ProgramChange(_, program):
            return _on(channel, specs.PROGRAM_CHANGE, program)
        case ChannelPressure(_, pressure):
            return _on(channel, specs.CHANNEL_PRESSURE, pressure)
        case PitchBend(_, bend):
            coarse, fine = value_to_pair(bend)
            return _on(channel, specs.PITCH_BEND, fine, coarse)
        case _:
            assert_never(message)


def _on(channel: int, kind: Kind, *data: int) -> bytes:
    """The status of `kind` on a channel of 1 to 16, and the data bytes."""
    return bytes((kind.status | channel - 1, *data))


@dataclass(frozen=True, slots=True)
class LastStatus:
    """The status a sender may leave out, and when (microseconds) it was last really sent."""

    status: int | None = None
    sent_at: int = 0


def encode_running(
    message: Message, last: LastStatus, *, at: int = 0, refresh: int | None = None
) -> tuple[bytes, LastStatus]:
    """The bytes of a message at `at` microseconds, and what its sender remembers for the next.

    The status is left out when it is the last one sent. With `refresh` it is sent again once that
    many microseconds have passed since it was last really there, idle or not: a receiver plugged
    in later understands nothing before it (MIDI 1.0, page A-2, advises every few seconds).
    """
    raw = encode(message)
    status = raw[0]
    match KIND_OF_STATUS[status].running:
        case Running.KEEPS:
            return raw, last
        case Running.CLEARS:
            return raw, LastStatus()
        case Running.SETS:
            stale = refresh is not None and at - last.sent_at >= refresh
            if status == last.status and not stale:
                return raw[1:], last
            return raw, LastStatus(status, at)
        case unknown:
            assert_never(unknown)


def encode_sequence(
    timed: Iterable[TimedMessage], *, refresh: int | None = None
) -> tuple[bytes, ...]:
    """The bytes of each message of a sequence sent with running status, one entry a message.

    `timed` gives (microseconds, message) in the order of sending; `refresh` as above.
    """
    last = LastStatus()
    sent: list[bytes] = []
    for at, message in timed:
        raw, last = encode_running(message, last, at=at, refresh=refresh)
        sent.append(raw)
    return tuple(sent)
