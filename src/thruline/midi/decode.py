"""The bytes of exactly one message to that message."""

from collections.abc import Callable, Mapping
from typing import Final

from thruline.base.errors import CannotUse
from thruline.midi import specs
from thruline.midi.message import (
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
    TuneRequest,
)
from thruline.midi.numbers import pair_to_value
from thruline.midi.specs import FIRST_STATUS, KIND_OF_STATUS, Family, Kind
from thruline.midi.words import BYTES_SHOWN, counted, in_hex

_END = specs.END_OF_EXCLUSIVE.status


def decode(raw: bytes) -> Message:
    """The message that `raw` holds; the inverse of `encode`.

    Raises CannotUse when `raw` is not one whole message with its status and nothing else.
    """
    if not raw or raw[0] < FIRST_STATUS:
        raise CannotUse(f"{_quoted(raw)} does not begin with a status (80 to FF hex)")
    if raw[0] == specs.EXCLUSIVE.status:
        return _exclusive(raw)
    _check_whole(KIND_OF_STATUS[raw[0]], raw)
    return decode_whole(raw)


def decode_whole(raw: bytes) -> Message:
    """As `decode`, for bytes that are known to be one whole message and no system exclusive."""
    kind = KIND_OF_STATUS[raw[0]]
    match kind.family:
        case Family.CHANNEL:
            return _CHANNEL[kind]((raw[0] & 0x0F) + 1, *raw[1:])
        case Family.COMMON:
            return _COMMON[kind](*raw[1:])
        case _:
            return RealTime(RealTimeKind(kind.name))


def _exclusive(raw: bytes) -> SystemExclusive:
    if raw[-1] != _END:
        raise CannotUse(f"the system exclusive {_quoted(raw)} does not end with F7")
    return SystemExclusive(raw[1:-1])


def _check_whole(kind: Kind, raw: bytes) -> None:
    """Raise CannotUse unless `raw` has the bytes of its kind, the data below 80 hex."""
    if not kind.defined or kind is specs.END_OF_EXCLUSIVE:
        raise CannotUse(f"{_quoted(raw)} is no message: {raw[0]:02X} hex is {kind.name}")
    whole = 1 + len(kind.data)
    if len(raw) != whole:
        raise CannotUse(
            f"{_quoted(raw)} is not one {kind.name}: that takes {counted(whole)}, "
            f"here are {len(raw)}"
        )
    if not raw[1:].isascii():
        raise CannotUse(f"{_quoted(raw)} is not one {kind.name}: a status is among its data")


def _note_on(channel: int, note: int, velocity: int) -> NoteOn | NoteOff:
    return NoteOn(channel, note, velocity) if velocity else NoteOff(channel, note)


def _pitch_bend(channel: int, fine: int, coarse: int) -> PitchBend:
    return PitchBend(channel, pair_to_value(coarse, fine))


def _quarter_frame(data: int) -> QuarterFrame:
    return QuarterFrame(data >> 4, data & 0x0F)


def _song_position(fine: int, coarse: int) -> SongPosition:
    return SongPosition(pair_to_value(coarse, fine))


_CHANNEL: Final[Mapping[Kind, Callable[..., Message]]] = {
    specs.NOTE_OFF: NoteOff,
    specs.NOTE_ON: _note_on,
    specs.POLY_PRESSURE: PolyPressure,
    specs.CONTROL_CHANGE: ControlChange,
    specs.PROGRAM_CHANGE: ProgramChange,
    specs.CHANNEL_PRESSURE: ChannelPressure,
    specs.PITCH_BEND: _pitch_bend,
}

_COMMON: Final[Mapping[Kind, Callable[..., Message]]] = {
    specs.QUARTER_FRAME: _quarter_frame,
    specs.SONG_POSITION: _song_position,
    specs.SONG_SELECT: SongSelect,
    specs.TUNE_REQUEST: TuneRequest,
}


def _quoted(raw: bytes) -> str:
    return f'"{in_hex(raw, most=BYTES_SHOWN)}"'
