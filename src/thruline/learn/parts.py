"""A capture cut into what came at each press or travel, line by line."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import NamedTuple

from thruline.audit.capture import Capture, Caught, Note, NoteKind, caught, is_of_a_press
from thruline.audit.digits import is_number
from thruline.midi import specs
from thruline.midi.stream import Heard

SILENCE_US = 700_000
"""A silence this long ends what one press sends: controllers pause for half a second at most."""


class Message(NamedTuple):
    """A whole message, and when its last byte was there; `short` came without its status byte."""

    at_us: int
    data: bytes
    short: bool = False


class Label(NamedTuple):
    """What a person said that was done: a preset by its number, or a sweep by its name."""

    preset: int | None
    sweep: str | None
    name: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What came on one line at one press or travel; `label` is None where nobody said which.

    `serial` is the same for what came on several lines at once, `take` for what is of one capture.
    `malformed` counts pieces that were no messages.
    """

    serial: int
    line: int
    label: Label | None
    at_us: int
    messages: tuple[Message, ...]
    malformed: int = 0
    take: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """All parts of some captures in their order, and the clock that came beside them.

    `clocks` are the spaces between clock bytes, and `clock_us` how long they are together.
    `running_status` says that the controller leaves repeated status bytes out.
    """

    parts: tuple[Part, ...]
    running_status: bool
    clocks: int
    clock_us: int


def cut(captures: Sequence[Capture]) -> Cut:
    """The parts of some captures of one controller, one capture after the other."""
    parts: list[Part] = []
    clocks = clock_us = 0
    for take, capture in enumerate(captures):
        events = list(caught(capture))
        beats = [one.at_us for one in events if _is_clock(one)]
        clocks += max(0, len(beats) - 1)
        clock_us += beats[-1] - beats[0] if beats else 0
        events = [one for one in events if is_of_a_press(one)]
        noted = any(isinstance(one, Note) for one in events)
        first = max((one.serial for one in parts), default=-1) + 1
        found = _noted(events) if noted else _parted(events)
        parts += [replace(one, serial=one.serial + first, take=take) for one in found]
    running = _omits_status(parts)
    kept = parts if running else [_without_short(part) for part in parts]
    return Cut(parts=tuple(kept), running_status=running, clocks=clocks, clock_us=clock_us)


def _omits_status(parts: Iterable[Part]) -> bool:
    """Whether messages with the status of the one before mostly come without it."""
    short = long = 0
    for part in parts:
        for before, after in pairwise(part.messages):
            if before.data[0] == after.data[0] < specs.FIRST_SYSTEM_STATUS:
                short, long = short + after.short, long + (not after.short)
    return short > long


def _without_short(part: Part) -> Part:
    """A part without what is there only because a status byte was lost."""
    kept = tuple(one for one in part.messages if not one.short)
    lost = len(part.messages) - len(kept)
    return replace(part, messages=kept, malformed=part.malformed + lost)


def _is_clock(one: Caught | Note) -> bool:
    return isinstance(one, Caught) and one.raw == bytes((specs.CLOCK.status,))


def label_of(note: Note) -> Label | None:
    """What a note says was done; None when it is no name of a preset or sweep."""
    if note.kind is NoteKind.SWEEP:
        return Label(None, note.text)
    number, _, name = note.text.partition(" ")
    if not is_number(number):
        return None
    return Label(int(number), None, name.strip().strip('"'))


def _noted(events: Sequence[Caught | Note]) -> Iterator[Part]:
    """From each note to the next; what came before the first belongs to no press."""
    label: Label | None = None
    serial, at_us, heard = 0, 0, list[Caught]()
    for one in events:
        if isinstance(one, Caught):
            heard.append(one)
            continue
        if one.kind is not NoteKind.SKIP:
            yield from _by_line(heard, serial, label, at_us)
            label, at_us, serial = label_of(one), one.at_us, serial + 1
        heard = []
    yield from _by_line(heard, serial, label, at_us)


def _parted(events: Sequence[Caught | Note]) -> Iterator[Part]:
    """Between silences, on all lines together."""
    serial, heard = 0, list[Caught]()
    for one in events:
        if not isinstance(one, Caught):
            continue
        if heard and one.at_us - heard[-1].at_us >= SILENCE_US:
            yield from _by_line(heard, serial, None, heard[0].at_us)
            serial, heard = serial + 1, []
        heard.append(one)
    yield from _by_line(heard, serial, None, heard[0].at_us if heard else 0)


def _by_line(
    heard: Sequence[Caught], serial: int, label: Label | None, at_us: int
) -> Iterator[Part]:
    for line in sorted({one.line for one in heard}):
        mine = [one for one in heard if one.line == line]
        whole = [one for one in mine if one.message is not None]
        yield Part(
            serial=serial,
            line=line,
            label=label,
            at_us=at_us,
            messages=tuple(Message(one.at_us, one.raw, _left_out(one)) for one in whole),
            malformed=len(mine) - len(whole),
        )


def _left_out(one: Caught) -> bool:
    """Whether a message came without its status byte."""
    event = one.event
    return isinstance(event, Heard) and event.last - event.first + 1 < len(one.raw)
