"""The bytes of a Standard MIDI File to timed messages.

Source: RP-001 Standard MIDI Files 1.0. Each track is read as a line of its own: what stands in it,
escape events and exclusives sent in packets included, goes through the reader of live bytes.
"""

import heapq
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from thruline.base.errors import CannotUse
from thruline.midi import specs
from thruline.midi.file_encode import META, META_END, META_NAME, META_TEMPO, TEMPO
from thruline.midi.message import TimedMessage
from thruline.midi.specs import FIRST_STATUS, KIND_OF_STATUS, Family
from thruline.midi.stream import Event, Heard, Malformed, Reader
from thruline.midi.words import counted

_LONGEST_NUMBER: Final = 4
"""Bytes of the longest variable-length quantity."""

_PATTERNS: Final = 2
"""The format whose tracks are independent patterns, with no common time."""


@dataclass(frozen=True, slots=True)
class Recording:
    """What a file holds: its name, its messages and whatever was malformed, in order of time.

    Times are microseconds from the start.
    """

    name: str
    messages: tuple[TimedMessage, ...]
    malformed: tuple[tuple[int, Malformed], ...] = ()


def decode_file(raw: bytes) -> Recording:
    """The recording in the bytes of a file of format 0 or 1; the inverse of `encode_file`.

    Raises CannotUse when they are not such a file, or are damaged.
    """
    scale, tracks = _opened(raw)
    name = ""
    messages: list[TimedMessage] = []
    malformed: list[tuple[int, Malformed]] = []
    for at, found in _timed(tracks, scale):
        match found:
            case Heard(message):
                messages.append((at, message))
            case Malformed():
                malformed.append((at, found))
            case _:
                name = name or found
    return Recording(name, tuple(messages), tuple(malformed))


@dataclass(frozen=True, slots=True)
class _Scale:
    """How long ticks last: `us` microseconds for every `ticks`; tempo counts unless `fixed`."""

    us: int
    ticks: int
    fixed: bool


@dataclass(frozen=True, slots=True)
class _Happening:
    """One event of a track: bytes as on a line, or a meta event of a kind with its data."""

    tick: int
    data: bytes
    meta: int | None = None


class _Bytes:
    """Bytes of a file, taken from the front; all three ways raise CannotUse at the end."""

    def __init__(self, raw: bytes, *, begin: int = 0, end: int | None = None) -> None:
        self.raw = raw
        self.at = begin
        self.end = len(raw) if end is None else end

    def take(self, count: int) -> bytes:
        """The next `count` bytes."""
        if self.at + count > self.end:
            raise CannotUse(
                f"the MIDI file is damaged: {counted(count)} should follow at byte {self.at}, "
                f"and there are {self.end - self.at}"
            )
        self.at += count
        return self.raw[self.at - count : self.at]

    def number(self, size: int) -> int:
        """A number of `size` bytes, highest first."""
        return int.from_bytes(self.take(size))

    def variable_length(self) -> int:
        """A variable-length quantity; the inverse of `file_encode.variable_length`."""
        number = 0
        for _ in range(_LONGEST_NUMBER):
            byte = self.number(1)
            number = number << 7 | byte & specs.DATA_MAX
            if byte < FIRST_STATUS:
                return number
        raise CannotUse(f"the MIDI file is damaged: a number before byte {self.at} has no end")


def _opened(raw: bytes) -> tuple[_Scale, list[_Bytes]]:
    """The time scale of a file, and its tracks, each ready to be read."""
    file = _Bytes(raw)
    if raw[:4] != b"MThd":
        raise CannotUse("this is not a MIDI file: it does not begin with MThd")
    tracks: list[_Bytes] = []
    header = _chunk(file)[1]
    kind, _, division = (header.number(2) for _ in range(3))
    if kind >= _PATTERNS:
        raise CannotUse(
            f"the MIDI file is of format {kind}, whose tracks have no common time; "
            "save it as format 0 or 1"
        )
    while file.end - file.at >= 8:  # less is padding, not a chunk
        name, body = _chunk(file)
        if name == b"MTrk":
            tracks.append(body)
    return _scale(division), tracks


def _chunk(file: _Bytes) -> tuple[bytes, _Bytes]:
    """The next chunk: its name and its bytes."""
    name = file.take(4)
    size = file.number(4)
    begin = file.at
    file.take(size)
    return name, _Bytes(file.raw, begin=begin, end=file.at)


def _scale(division: int) -> _Scale:
    """What the division says: parts of a quarter note, or of a frame of time code."""
    if division < 0x8000:
        scale = _Scale(TEMPO, division, fixed=False)
    else:
        frames, parts = 0x100 - (division >> 8), division & 0xFF
        # 29 stands for the 30 000 / 1001 frames a second of colour television.
        us, rate = (1_001_000_000, 30_000) if frames == 29 else (1_000_000, frames)
        scale = _Scale(us, rate * parts, fixed=True)
    if scale.ticks == 0:
        raise CannotUse("the MIDI file is damaged: its header says that a tick has no length")
    return scale


def _timed(tracks: Sequence[_Bytes], scale: _Scale) -> Iterator[tuple[int, Event | str]]:
    """Whatever the tracks hold, at its time in microseconds; a track's name as text."""
    readers = [Reader() for _ in tracks]
    lines = [
        [(happening.tick, line, happening) for happening in _happenings(track)]
        for line, track in enumerate(tracks)
    ]
    us, tick_before, elapsed = scale.us, 0, 0
    for tick, line, happening in heapq.merge(*lines, key=lambda entry: entry[:2]):
        elapsed += (tick - tick_before) * us
        tick_before = tick
        at = (elapsed + scale.ticks // 2) // scale.ticks
        if happening.meta is None:
            yield from ((at, event) for event in readers[line].feed(happening.data))
        elif happening.meta == META_NAME:
            yield at, _text(happening.data)
        elif happening.meta == META_TEMPO and not scale.fixed:
            us = int.from_bytes(happening.data)
    at = (elapsed + scale.ticks // 2) // scale.ticks
    for reader in readers:
        yield from ((at, event) for event in reader.finish())


def _happenings(track: _Bytes) -> Iterator[_Happening]:
    """The events of one track, in order, up to its end."""
    tick = running = 0
    while track.at < track.end:
        tick += track.variable_length()
        status = track.number(1)
        if status == META:
            meta = track.number(1)
            yield _Happening(tick, track.take(track.variable_length()), meta)
            if meta == META_END:
                return
        elif status == specs.EXCLUSIVE.status:
            yield _Happening(tick, bytes((status,)) + track.take(track.variable_length()))
            running = 0
        elif status == specs.END_OF_EXCLUSIVE.status:
            yield _Happening(tick, track.take(track.variable_length()))
            running = 0
        else:
            if status < FIRST_STATUS:
                track.at -= 1
                status = running
            yield _Happening(tick, _plain(track, status))
            running = status if KIND_OF_STATUS[status].family is Family.CHANNEL else 0


def _plain(track: _Bytes, status: int) -> bytes:
    """A message that stands in a track as on a line, its status already taken or running.

    System common and real time should not stand so, but there is no doubt what they mean.
    """
    kind = KIND_OF_STATUS.get(status)
    data = b"" if kind is None else track.take(len(kind.data))
    if kind is None or not kind.defined or not data.isascii():
        raise CannotUse(f"the MIDI file is damaged: at byte {track.at} there is no message")
    return bytes((status,)) + data


def _text(data: bytes) -> str:
    """Text as written today, or else as it used to be."""
    try:
        return data.decode()
    except UnicodeDecodeError:
        return data.decode("latin-1")
