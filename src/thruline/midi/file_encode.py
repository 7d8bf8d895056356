"""Timed messages to the bytes of a Standard MIDI File.

Source: RP-001 Standard MIDI Files 1.0. Real-time and system common messages have no place of their
own in such a file; they travel, as the standard says, in escape events (F7), so that a recording
of a line keeps its clock.
"""

from collections import deque
from collections.abc import Iterator, Sequence
from typing import Final, TypeAlias

from thruline.base.errors import CannotUse
from thruline.midi import specs
from thruline.midi.encode import encode
from thruline.midi.message import TimedMessage
from thruline.midi.specs import FIRST_SYSTEM_STATUS

META: Final = 0xFF
META_TEXT: Final = 0x01
META_NAME: Final = 0x03
META_MARKER: Final = 0x06
META_END: Final = 0x2F
META_TEMPO: Final = 0x51

TEMPO: Final = 500_000
"""Microseconds in a quarter note: 120 a minute, which is what a file without a tempo means."""

DIVISION: Final = 25_000
"""Ticks in a quarter note."""

TICK_US: Final = TEMPO // DIVISION
"""A tick is 20 microseconds, so that one byte on a line (320) is exactly 16 ticks.

Any time comes back at most 10 microseconds off, and the errors do not add up.
"""

LONGEST_DELTA: Final = 0x0FFFFFFF
"""The most ticks between two events: four bytes of seven bits."""

_NOTHING: Final = bytes((META, META_TEXT, 0))
"""An empty text, to bridge a gap that is longer than one delta can say."""


def encode_file(
    timed: Sequence[TimedMessage], *, name: str = "", marks: Sequence[tuple[int, str]] = ()
) -> bytes:
    """A file of one track (format 0) with these messages, in order, and the track's name.

    `marks` are named moments; one stands before the messages of its moment. Times are microseconds
    from the start. Raises CannotUse when a time is negative or earlier than the one before it.
    """
    first = _event(0, _meta(META_TEMPO, TEMPO.to_bytes(3)))
    return _headed(0, [_track(timed, name=name, first=first, marks=marks)])


def encode_tracks(
    tracks: Sequence[tuple[str, Sequence[TimedMessage]]],
    *,
    name: str = "",
    marks: Sequence[tuple[int, str]] = (),
) -> bytes:
    """A file (format 1) with a track for each of several lines, each with its name.

    Before them stands one with the tempo and the `marks`, called `name`, as the standard has it.
    Times, and what is raised, as of `encode_file`.
    """
    first = _event(0, _meta(META_TEMPO, TEMPO.to_bytes(3)))
    tempo = _track((), name=name, first=first, marks=marks)
    return _headed(1, [tempo, *(_track(timed, name=line) for line, timed in tracks)])


def _headed(kind: int, tracks: Sequence[bytes]) -> bytes:
    header = b"".join(number.to_bytes(2) for number in (kind, len(tracks), DIVISION))
    return _chunk(b"MThd", header) + b"".join(_chunk(b"MTrk", one) for one in tracks)


def _track(
    timed: Sequence[TimedMessage],
    *,
    name: str,
    first: bytes = b"",
    marks: Sequence[tuple[int, str]] = (),
) -> bytes:
    """One track: its name, what comes first, then marks and messages."""
    track = bytearray(_event(0, _text(META_NAME, name)) if name else b"")
    track += first
    marked = [(at, _text(META_MARKER, words)) for at, words in marks]
    said = [(at, _wrapped(encode(message))) for at, message in timed]
    for delta, event in _deltas(_merged(marked, said)):
        track += _event(delta, event)
    return bytes(track + _event(0, _meta(META_END, b"")))


_Timed: TypeAlias = list[tuple[int, bytes]]
"""Events of a track, each with its microseconds from the start."""


def _merged(marked: _Timed, said: _Timed) -> _Timed:
    """Marks put between messages whose order is kept, also where it is wrong."""
    merged, left = [], deque(sorted(marked))
    for at, event in said:
        while left and left[0][0] <= at:
            merged.append(left.popleft())
        merged.append((at, event))
    return [*merged, *left]


def _deltas(timed: _Timed) -> Iterator[tuple[int, bytes]]:
    """Each event as ticks since the last one, and its bytes."""
    before = ticks_before = 0
    for at, event in timed:
        if at < before:
            raise CannotUse(
                f"a message at {at} us cannot follow one at {before} us in a MIDI file: "
                "put the messages in order of time, none before 0"
            )
        ticks = (at + TICK_US // 2) // TICK_US
        yield ticks - ticks_before, event
        before, ticks_before = at, ticks


def _event(delta: int, what: bytes) -> bytes:
    bridges, rest = divmod(delta, LONGEST_DELTA)
    bridge = variable_length(LONGEST_DELTA) + _NOTHING
    return bridge * bridges + variable_length(rest) + what


def _wrapped(raw: bytes) -> bytes:
    """The bytes of a message as a file holds them."""
    if raw[0] < FIRST_SYSTEM_STATUS:
        return raw
    if raw[0] == specs.EXCLUSIVE.status:
        return raw[:1] + variable_length(len(raw) - 1) + raw[1:]
    return bytes((specs.END_OF_EXCLUSIVE.status,)) + variable_length(len(raw)) + raw


def _text(kind: int, words: str) -> bytes:
    return _meta(kind, words.encode(errors="replace"))


def _meta(kind: int, data: bytes) -> bytes:
    return bytes((META, kind)) + variable_length(len(data)) + data


def _chunk(name: bytes, data: bytes) -> bytes:
    return name + len(data).to_bytes(4) + data


def variable_length(number: int) -> bytes:
    """A variable-length quantity: seven bits a byte, highest first, bit 7 on all but the last."""
    groups = [number & specs.DATA_MAX]
    while number := number >> 7:
        groups.append(number & specs.DATA_MAX | specs.FIRST_STATUS)
    return bytes(reversed(groups))
