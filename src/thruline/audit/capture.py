"""A capture: the bytes that came in over lines of a real rig, each with its time, and notes."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import NamedTuple, TypeAlias

from thruline.base.measures import BYTE_US
from thruline.midi.encode import encode
from thruline.midi.message import Message, TimedMessage
from thruline.midi.stream import Event, Heard, Reader


class NoteKind(StrEnum):
    """What a note in a capture tells."""

    GONE = "gone"
    """The port of this line has vanished."""
    BACK = "back"
    """It is there again."""
    PRESS = "press"
    """The person pressed a preset; the text is its number."""
    SWEEP = "sweep"
    """The person moved a pedal from heel to toe; the text is the name of the sweep."""
    SKIP = "skip"
    """The press or sweep noted last was not done, as far as one heard; the text names it."""
    SAYS = "says"
    """Anything else that a person should read here."""


@dataclass(frozen=True, slots=True)
class Came:
    """Bytes that came together on a line; lines count from 1."""

    at_us: int
    line: int
    data: bytes


@dataclass(frozen=True, slots=True)
class Note:
    """Something that happened beside the bytes. Line 0 is about no line in particular."""

    at_us: int
    line: int
    kind: NoteKind
    text: str = ""


Entry: TypeAlias = Came | Note


@dataclass(frozen=True, slots=True, kw_only=True)
class Capture:
    """Everything from the start of a session, in the order of its time (us from the start).

    `lines` names them; `began` is the date and time of day as written down, empty if unknown.
    """

    lines: tuple[str, ...]
    entries: tuple[Entry, ...]
    began: str = ""

    @property
    def notes(self) -> tuple[Note, ...]:
        """The notes alone."""
        return tuple(one for one in self.entries if isinstance(one, Note))


_bytes = lru_cache(maxsize=1 << 13)(encode)
"""Lines repeat themselves."""


class Caught(NamedTuple):
    """One event on one line: a whole message or what is malformed, with its last byte's time."""

    at_us: int
    line: int
    event: Event

    @property
    def message(self) -> Message | None:
        """The message; None where the bytes were none."""
        return self.event.message if isinstance(self.event, Heard) else None

    @property
    def raw(self) -> bytes:
        """The bytes; of a message all of them, its status included."""
        return _bytes(self.event.message) if isinstance(self.event, Heard) else self.event.raw


class Ear:
    """Reads bytes from several lines as they come, each line with a reader of its own."""

    __slots__ = ("_readers",)

    def __init__(self) -> None:
        self._readers: dict[int, Reader] = {}

    def take(self, came: Came) -> list[Caught]:
        """What these bytes complete or spoil, in order."""
        reader = self._readers.get(came.line)
        if reader is None:
            reader = self._readers[came.line] = Reader()
        return [Caught(came.at_us, came.line, event) for event in reader.feed(came.data)]

    def end(self, at_us: int, line: int) -> list[Caught]:
        """The line broke off: what it left unfinished."""
        reader = self._readers.get(line)
        return [Caught(at_us, line, event) for event in reader.finish()] if reader else []


def caught(capture: Capture) -> Iterator[Caught | Note]:
    """Every event and note of a capture, in order; a line that goes breaks its message off."""
    ear = Ear()
    last_us = 0
    for entry in capture.entries:
        last_us = entry.at_us
        if isinstance(entry, Came):
            yield from ear.take(entry)
            continue
        if entry.kind is NoteKind.GONE:
            yield from ear.end(entry.at_us, entry.line)
        yield entry
    for line in range(1, len(capture.lines) + 1):
        yield from ear.end(last_us, line)


def capture_of(timed: Iterable[TimedMessage], *, line: str) -> Capture:
    """A capture of one line from messages with their times."""
    entries = tuple(Came(at, 1, encode(message)) for at, message in timed)
    return Capture(lines=(line,), entries=entries)


def capture_of_bytes(raw: bytes, *, line: str) -> Capture:
    """A capture of bytes without times: as if they had filled one line from the start."""
    entries = tuple(Came((place + 1) * BYTE_US, 1, bytes((one,))) for place, one in enumerate(raw))
    return Capture(lines=(line,), entries=entries)
