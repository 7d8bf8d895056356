"""Messages in words: `channel 3: control 14 = 64`."""

from typing import Final, assert_never

from thruline.midi.message import (
    BEND_CENTRE,
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
    SongPosition,
    SongSelect,
    SystemExclusive,
    TuneRequest,
)
from thruline.midi.specs import MODE_NAMES

BYTES_SHOWN: Final = 8
"""As many bytes of an exclusive are shown before the rest is only counted."""


def in_words(message: Message) -> str:
    """One message as a person says it; numbers are those of the wire, channels 1 to 16."""
    match message:
        case SystemExclusive(data):
            shown = f": {in_hex(data, most=BYTES_SHOWN)}" if data else ""
            return f"system exclusive, {counted(len(data))}{shown}"
        case QuarterFrame(piece, value):
            return f"time code quarter frame, piece {piece} = {value}"
        case SongPosition(position):
            return f"song position {position}"
        case SongSelect(song):
            return f"song select {song}"
        case TuneRequest():
            return "tune request"
        case RealTime(kind):
            return kind.value
        case _:
            return f"channel {message.channel}: {_on_its_channel(message)}"


def _on_its_channel(message: ChannelMessage) -> str:
    """A channel message, once its channel is said."""
    match message:
        case NoteOff(_, note, velocity):
            return f"note {note} off" + ("" if velocity is None else f", velocity {velocity}")
        case NoteOn(_, note, velocity):
            return f"note {note} on, velocity {velocity}"
        case PolyPressure(_, note, pressure):
            return f"note {note} pressure {pressure}"
        case ControlChange(_, control, value):
            mode = f" ({MODE_NAMES[control]})" if control in MODE_NAMES else ""
            return f"control {control} = {value}{mode}"
        case ProgramChange(_, program):
            return f"program change {program}"
        case ChannelPressure(_, pressure):
            return f"channel pressure {pressure}"
        case PitchBend(_, bend):
            off_centre = bend - BEND_CENTRE
            return f"pitch bend {off_centre:+}" if off_centre else "pitch bend centre"
        case _:
            assert_never(message)


def in_hex(raw: bytes, *, most: int | None = None) -> str:
    """Bytes as technicians write them, `F0 7E 7F`; three dots after the first `most`."""
    if most is None or len(raw) <= most:
        return raw.hex(" ").upper()
    return f"{raw[:most].hex(' ').upper()} ..."


def messages_says(count: int) -> str:
    """A number of messages: `1 message`, `2 messages`."""
    return "1 message" if count == 1 else f"{count} messages"


def counted(count: int) -> str:
    """A number of bytes: `1 byte`, `2 bytes`."""
    return "1 byte" if count == 1 else f"{count} bytes"
