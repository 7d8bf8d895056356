"""Live bytes to messages: a reader that takes any bytes, cut anywhere, and never gives up.

Source of every rule: MIDI 1.0 Detailed Specification 4.2.1, pages 5, 6, 33 and A-1 to A-3.
What each status does to running status stands in `specs`.
"""

import re
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache
from typing import Final, Self, TypeAlias

from thruline.base.errors import CannotUse
from thruline.midi import specs
from thruline.midi.decode import decode, decode_whole
from thruline.midi.message import Message, SystemExclusive
from thruline.midi.specs import FIRST_STATUS, KIND_OF_STATUS, KINDS, Kind, Running

LONGEST_EXCLUSIVE: Final = 1 << 20
"""Data bytes a reader gathers for one exclusive unless told otherwise; over 5 minutes of line."""


class Flaw(StrEnum):
    """What can be wrong with bytes on a line; `says` is one sentence about it."""

    says: str

    def __new__(cls, word: str, says: str) -> Self:
        """A member with its sentence."""
        member = str.__new__(cls, word)
        member._value_ = word
        member.says = says
        return member

    ORPHAN_DATA = (
        "orphan data",
        "A data byte came while no status was in force, so every receiver drops it.",
    )
    UNFINISHED = (
        "unfinished message",
        "A new status came before the message had all its data bytes, so it is lost.",
    )
    EXCLUSIVE_CUT = (
        "system exclusive cut short",
        "A status other than F7 or real time came inside a system exclusive, so it is not whole.",
    )
    EXCLUSIVE_TOO_LONG = (
        "system exclusive too long",
        "A system exclusive went on past the limit of this reader; here is a piece of it.",
    )
    UNDEFINED_STATUS = (
        "undefined status",
        "The standard gives this status no meaning: nobody may send it, and receivers ignore it.",
    )
    STRAY_END = (
        "stray end of exclusive",
        "An F7 came while no system exclusive was open.",
    )
    BROKEN_OFF = (
        "broken off",
        "The stream ended in the middle of a message.",
    )


@dataclass(frozen=True, slots=True)
class Heard:
    """A whole message, and where in the stream its first and last byte stood, counted from 0.

    A first data byte is the first byte where running status made the status needless. Real-time
    bytes between first and last are not part of the message: each has its own event.
    """

    message: Message
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Malformed:
    """Bytes that are no message: what is wrong, the bytes, and their first and last position."""

    flaw: Flaw
    raw: bytes
    first: int
    last: int


Event: TypeAlias = Heard | Malformed
"""What a reader reports. Every byte read belongs to exactly one event."""

_TOKENS = re.compile(rb"[\x80-\xFF][\x00-\x7F]*|[\x00-\x7F]+")
"""A stream is statuses, each with the data bytes behind it; a chunk may begin with data."""

_EXCLUSIVE = specs.EXCLUSIVE.status
_END = specs.END_OF_EXCLUSIVE.status

_meaning = lru_cache(maxsize=1 << 13)(decode_whole)
"""Lines repeat themselves, and messages are frozen: the same bytes give the same object."""


def _alone(kind: Kind) -> Message | Flaw:
    """What a status means that no data bytes follow."""
    if not kind.defined:
        return Flaw.UNDEFINED_STATUS
    return Flaw.STRAY_END if kind.status == _END else decode(bytes((kind.status,)))


_ALONE: Final = {kind.status: _alone(kind) for kind in KINDS if kind.length == 1}
_WHOLE: Final = {
    status: kind.length for status, kind in KIND_OF_STATUS.items() if kind.running is Running.SETS
}
_INTERPOSED: Final = frozenset(kind.status for kind in KINDS if kind.running is Running.KEEPS)
"""Statuses that pass through whatever else is going on."""


class Reader:
    """Reads one line. Feed it the bytes as they come; the way they are cut changes nothing.

    `longest` is how many data bytes one exclusive may have. A longer one is reported as Malformed
    in pieces of about that size, so that memory stays bounded and no byte goes unreported.
    Raises CannotUse when `longest` is less than 1, and nothing ever after.
    """

    __slots__ = (
        *("_first", "_held", "_last", "_lead"),
        *("_longest", "_overlong", "_position", "_status"),
    )

    def __init__(self, *, longest: int = LONGEST_EXCLUSIVE) -> None:
        if longest < 1:
            raise CannotUse(f"a reader must allow at least 1 byte of exclusive data, not {longest}")
        self._longest = longest
        self._position = 0
        self._status = 0  # what data bytes belong to; 0 when to nothing
        self._lead = b""  # the status of the unfinished message, if it was really there
        self._held = bytearray()  # the data bytes of the unfinished message so far
        self._first = self._last = 0  # where the first and the last of all these stood
        self._overlong = False  # a piece of this exclusive was already reported

    @property
    def position(self) -> int:
        """Bytes read so far, which is the position of the next one."""
        return self._position

    def feed(self, chunk: bytes) -> list[Event]:
        """Take the next bytes, any number; what they complete or spoil, in order."""
        events: list[Event] = []
        for token in _TOKENS.finditer(chunk):
            raw = token[0]
            status = raw[0]
            at = self._position + token.start()
            if status < FIRST_STATUS:
                self._take_data(raw, at, events)
            elif len(raw) == _WHOLE.get(status):
                if self._lead or self._held:
                    self._end_open(events)
                self._status = status
                events.append(Heard(_meaning(raw), at, at + len(raw) - 1))
            else:
                self._take_status(status, at, events)
                if len(raw) > 1:
                    self._take_data(raw[1:], at + 1, events)
        self._position += len(chunk)
        return events

    def finish(self) -> list[Event]:
        """The stream has ended: report what was left unfinished, and be as at power-up.

        Positions go on counting, so a line that comes back can be read on.
        """
        events: list[Event] = []
        self._give_up(Flaw.BROKEN_OFF, events)
        self._status = 0
        return events

    def _take_status(self, status: int, at: int, events: list[Event]) -> None:
        """A status without the data that may follow it."""
        if status in _INTERPOSED:
            events.append(_single(status, at))
        elif status == _END and self._status == _EXCLUSIVE:
            self._close_exclusive(at, events)
        else:
            self._end_open(events)
            if status in _ALONE:
                self._status = 0
                events.append(_single(status, at))
            else:
                self._status = status
                self._lead = bytes((status,))
                self._first = self._last = at

    def _end_open(self, events: list[Event]) -> None:
        """A new status came: whatever was unfinished stays so."""
        cut = self._status == _EXCLUSIVE
        self._give_up(Flaw.EXCLUSIVE_CUT if cut else Flaw.UNFINISHED, events)

    def _take_data(self, run: bytes, at: int, events: list[Event]) -> None:
        """Data bytes in a row belong to what is open, then to running status, or to nobody."""
        if self._status == _EXCLUSIVE:
            self._lengthen_exclusive(run, at, events)
            return
        taken = self._complete(run, at, events) if self._lead or self._held else 0
        if taken == len(run):
            return
        if self._status:
            self._run_on(run[taken:], at + taken, events)
        else:
            events.extend(
                Malformed(Flaw.ORPHAN_DATA, run[index : index + 1], at + index, at + index)
                for index in range(taken, len(run))
            )

    def _complete(self, run: bytes, at: int, events: list[Event]) -> int:
        """Give the message that was begun the data it lacks; how many bytes of `run` it took."""
        kind = KIND_OF_STATUS[self._status]
        part = run[: len(kind.data) - len(self._held)]
        self._hold(part, at)
        if len(self._held) == len(kind.data):
            message = _meaning(bytes((self._status, *self._held)))
            events.append(Heard(message, self._first, self._last))
            self._forget()
            if kind.running is Running.CLEARS:
                self._status = 0
        return len(part)

    def _run_on(self, run: bytes, at: int, events: list[Event]) -> None:
        """Data bytes after a whole message are further messages of its status."""
        status = bytes((self._status,))
        size = len(KIND_OF_STATUS[self._status].data)
        whole = len(run) - len(run) % size
        for index in range(0, whole, size):
            message = _meaning(status + run[index : index + size])
            events.append(Heard(message, at + index, at + index + size - 1))
        if whole < len(run):
            self._hold(run[whole:], at + whole)

    def _lengthen_exclusive(self, run: bytes, at: int, events: list[Event]) -> None:
        """More data of an exclusive; a piece of it is given up whenever the limit is passed."""
        start = 0
        while start < len(run):
            if len(self._held) == self._longest:
                self._give_up(Flaw.EXCLUSIVE_TOO_LONG, events)
                self._overlong = True
            part = run[start : start + self._longest - len(self._held)]
            self._hold(part, at + start)
            start += len(part)

    def _close_exclusive(self, at: int, events: list[Event]) -> None:
        """An F7 in an open exclusive: it is heard, unless pieces of it were already given up."""
        if self._overlong:
            self._hold(bytes((_END,)), at)
            self._give_up(Flaw.EXCLUSIVE_TOO_LONG, events)
        else:
            events.append(Heard(SystemExclusive(bytes(self._held)), self._first, at))
            self._forget()
        self._status = 0

    def _hold(self, part: bytes, at: int) -> None:
        """Keep data bytes of the unfinished message."""
        if not self._lead and not self._held:
            self._first = at
        self._held += part
        self._last = at + len(part) - 1

    def _give_up(self, flaw: Flaw, events: list[Event]) -> None:
        """Report the unfinished message, if there is one, as malformed."""
        if self._lead or self._held:
            events.append(Malformed(flaw, self._lead + self._held, self._first, self._last))
            self._forget()

    def _forget(self) -> None:
        """Nothing is unfinished any more."""
        self._lead = b""
        self._held.clear()
        self._overlong = False


def _single(status: int, at: int) -> Event:
    """The event of a status that no data bytes follow."""
    meaning = _ALONE[status]
    if isinstance(meaning, Flaw):
        return Malformed(meaning, bytes((status,)), at, at)
    return Heard(meaning, at, at)
