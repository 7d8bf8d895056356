"""A capture: the bytes that came in over lines of a real rig, each with its time, and notes."""

from collections.abc import Iterable, Iterator, Sequence
from copy import deepcopy
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import NamedTuple, TypeAlias

from thruline.base.measures import BYTE_US
from thruline.midi import specs
from thruline.midi.encode import encode
from thruline.midi.identity import message_to_reply, message_to_request
from thruline.midi.message import Message, RealTime, SystemExclusive, TimedMessage
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

    def hear(self, entry: Entry) -> Sequence[Caught | Note]:
        """The events of an entry; a line that goes breaks its message off."""
        if isinstance(entry, Came):
            return self.take(entry)
        is_gone = entry.kind is NoteKind.GONE
        return [*(self.end(entry.at_us, entry.line) if is_gone else ()), entry]

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

    def unfinished(self, at_us: int) -> list[Caught]:
        """What would break off if all lines ended here; they may go on."""
        lines = deepcopy(self._readers).items()
        return [Caught(at_us, line, event) for line, one in lines for event in one.finish()]


def caught(capture: Capture) -> Iterator[Caught | Note]:
    """Every event and note of a capture, in order; a line that goes breaks its message off."""
    ear = Ear()
    for entry in capture.entries:
        yield from ear.hear(entry)
    yield from ear.unfinished(capture.entries[-1].at_us if capture.entries else 0)


def is_of_a_press(one: Caught | Note) -> bool:
    """Whether it may belong to what was pressed; of the notes those of presses do.

    Clock, sensing and the like go on whatever is pressed, and who is there is asked and answered
    by others.
    """
    if isinstance(one, Note):
        return one.kind in (NoteKind.PRESS, NoteKind.SWEEP, NoteKind.SKIP)
    match one.message:
        case None:
            return one.raw[:1] < bytes((specs.CLOCK.status,))
        case SystemExclusive() as message:
            return message_to_request(message) is None and message_to_reply(message) is None
        case message:
            return not isinstance(message, RealTime)


def capture_of(timed: Iterable[TimedMessage], *, line: str) -> Capture:
    """A capture of one line from messages with their times."""
    entries = tuple(Came(at, 1, encode(message)) for at, message in timed)
    return Capture(lines=(line,), entries=entries)


def capture_of_bytes(raw: bytes, *, line: str) -> Capture:
    """A capture of bytes without times: as if they had filled one line from the start."""
    entries = tuple(Came((place + 1) * BYTE_US, 1, bytes((one,))) for place, one in enumerate(raw))
    return Capture(lines=(line,), entries=entries)
