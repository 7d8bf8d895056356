"""A stand-in for a rig, made from the model, with mistakes to order: for training and tests.

What is pressed on it comes out at its taps byte for byte, in order and at the rate of the line;
pauses of the controller and delays on the way are left out. Mistakes are those of the audit's
vocabulary, put in by the same code that looks for them; bytes can be lost or garbled on the wire on
top. It does not imitate knobs that people turn by hand or units that answer questions.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from thruline.audit.build import build, parts_in
from thruline.audit.capture import Came, Capture, Entry, Note, NoteKind
from thruline.audit.fault import Fault
from thruline.audit.meant import NO_KEY, Meant
from thruline.base.measures import BYTE_US
from thruline.midi.specs import KIND_OF_STATUS

BETWEEN_US = 1_000_000
"""From the end of one press to the next."""
PEDAL_US = 20_000
"""Between two values of a pedal that is moved."""
TRAVEL_VALUES = 24
"""As many values a travel of a pedal gives here."""

Chance = Callable[[], float]
"""A number from 0 up to 1, another each time it is asked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """What befalls a wire: shares of messages lost, of bytes garbled, and strays for each press."""

    lost: float = 0.0
    garbled: float = 0.0
    strays: float = 0.0


NO_TROUBLE = Trouble()


def pretend_capture(
    meant: Meant,
    faults: Sequence[Fault] = (),
    *,
    pressed: Sequence[int] | None = None,
    trouble: Trouble = NO_TROUBLE,
    chance: Chance = lambda: 1.0,
) -> Capture:
    """What one would hear on pressing every step once (or some of them), each with its note."""
    chosen = list(range(len(meant.steps))) if pressed is None else list(pressed)
    by_step = _heard_by_step(meant, faults)
    entries: list[Entry] = []
    begin_us = 0
    for step in chosen:
        entries.append(note_of(meant, step, begin_us))
        messages = [*by_step.get(step, ()), *_strays(meant, trouble, chance)]
        came = [*_on_lines(messages, begin_us, trouble=trouble, chance=chance)]
        came.sort(key=_moment)
        entries += came
        begin_us = entries[-1].at_us + BETWEEN_US
    return Capture(lines=meant.taps, entries=tuple(entries))


def note_of(meant: Meant, step: int, at_us: int) -> Note:
    """The note that a step is done."""
    what = meant.steps[step]
    if what.sweep is not None:
        return Note(at_us, 0, NoteKind.SWEEP, what.sweep)
    return Note(at_us, 0, NoteKind.PRESS, str(what.preset))


Message = tuple[int, bytes, int]
"""A tap, the bytes, and a pause before it in us."""


def _heard_by_step(meant: Meant, faults: Sequence[Fault]) -> dict[int, list[Message]]:
    """What comes at each step, in the order of the plan."""
    everything = np.ones(len(meant.steps), np.bool_)
    keys = build(meant, faults, everything)
    found: dict[int, list[Message]] = {}
    for key in keys[keys != NO_KEY].tolist():
        step, tap, travel, status, first, second = parts_in(key)
        if travel:
            values = np.linspace(second >> 7, second & 0x7F, TRAVEL_VALUES).round().astype(int)
            messages = [(tap, bytes((status, first, one)), PEDAL_US) for one in values.tolist()]
        else:
            messages = [(tap, _bytes(status, first, second), 0)]
        found.setdefault(step, []).extend(messages)
    return found


def _bytes(status: int, first: int, second: int) -> bytes:
    return bytes((status, first, second & 0x7F))[: KIND_OF_STATUS[status].length]


def _strays(meant: Meant, trouble: Trouble, chance: Chance) -> Iterator[Message]:
    """Messages from nowhere."""
    left = trouble.strays
    while left > 0 and chance() < left:
        tap = int(chance() * len(meant.taps)) % len(meant.taps)
        numbers = (int(chance() * 128) & 0x7F, int(chance() * 128) & 0x7F)
        yield tap, bytes((0xB0 | int(chance() * 16) & 0x0F, *numbers)), 0
        left -= 1


def _on_lines(
    messages: Sequence[Message], begin_us: int, *, trouble: Trouble, chance: Chance
) -> Iterator[Came]:
    """The messages one after the other on each line, as fast as it takes them."""
    free: dict[int, int] = {}
    for tap, data, pause_us in messages:
        if trouble.lost and chance() < trouble.lost:
            continue
        at_us = free.get(tap, begin_us) + pause_us + BYTE_US * len(data)
        free[tap] = at_us
        yield Came(at_us, tap + 1, _garbled(data, trouble, chance))


def _garbled(data: bytes, trouble: Trouble, chance: Chance) -> bytes:
    """Bytes as they come through: some have one bit turned."""
    if not trouble.garbled:
        return data
    return bytes(
        one ^ (1 << int(chance() * 8) % 8) if chance() < trouble.garbled else one for one in data
    )


def _moment(came: Came) -> int:
    return came.at_us
