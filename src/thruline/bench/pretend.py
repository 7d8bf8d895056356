"""A stand-in for a rig, made from the model, with mistakes to order: for training and tests.

What is pressed on it is played through the lines of the rig by `timing`, so it comes out at each
tap byte for byte when it would there: pauses of the controller, its own time between messages,
queues and delays on the way, running status. A pedal gives its values at the pace of its input, and
its place again at a recall where the controller's chart says so. Mistakes are those of the audit's
vocabulary, put in by the same code that looks for them; messages or bytes can be lost, and bytes
garbled, on top. It does not imitate knobs that people turn by hand or units that answer questions.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from thruline.audit.capture import Came, Capture, Entry, Note, NoteKind
from thruline.audit.fault import Fault
from thruline.audit.meant import Meant
from thruline.base.measures import BYTE_US
from thruline.bench.pretend_source import Source
from thruline.bench.pretend_wire import Heard, Wire

BETWEEN_US = 1_000_000
"""From the end of one press to the next."""

Chance = Callable[[], float]
"""A number from 0 up to 1, another each time it is asked."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """What befalls a wire: shares of messages lost, of bytes garbled and of bytes lost; strays.

    `strays` are messages from nowhere for each press. A garbled byte has one bit turned.
    """

    lost: float = 0.0
    garbled: float = 0.0
    dropped: float = 0.0
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
    """What one would hear on doing every step once (or some, in this order), each with its note."""
    chosen = list(range(len(meant.steps))) if pressed is None else list(pressed)
    source, wire = Source(meant, faults), Wire(meant, faults)
    played = wire.play([list(source.step(step)) for step in chosen])
    entries: list[Entry] = []
    begin_us = 0
    for step, heard in zip(chosen, played, strict=True):
        entries.append(note_of(meant, step, begin_us))
        after_us = heard[-1].at_us if heard else 0
        entries += [
            Came(begin_us + one.at_us, one.tap + 1, data)
            for one in (*heard, *_strays(meant, trouble, chance, after_us=after_us))
            if (data := _through(one, trouble, chance))
        ]
        begin_us = entries[-1].at_us + BETWEEN_US
    return Capture(lines=meant.taps, entries=tuple(entries))


def note_of(meant: Meant, step: int, at_us: int) -> Note:
    """The note that a step is done."""
    what = meant.steps[step]
    if what.sweep is not None:
        return Note(at_us, 0, NoteKind.SWEEP, what.sweep)
    return Note(at_us, 0, NoteKind.PRESS, str(what.preset))


def _strays(meant: Meant, trouble: Trouble, chance: Chance, *, after_us: int) -> Iterator[Heard]:
    """Messages from nowhere, each at one of the taps."""
    left, at_us = trouble.strays, after_us
    while left > 0 and chance() < left:
        tap = int(chance() * len(meant.taps)) % len(meant.taps)
        numbers = (int(chance() * 128) & 0x7F, int(chance() * 128) & 0x7F)
        data = bytes((0xB0 | int(chance() * 16) & 0x0F, *numbers))
        at_us += BYTE_US * len(data)
        yield Heard(at_us, tap, data)
        left -= 1


def _through(heard: Heard, trouble: Trouble, chance: Chance) -> bytes:
    """What comes through of a message: all of it, some of its bytes, some with a bit turned."""
    if trouble.lost and chance() < trouble.lost:
        return b""
    if not trouble.garbled and not trouble.dropped:
        return heard.data
    kept = [one for one in heard.data if not trouble.dropped or chance() >= trouble.dropped]
    return bytes(
        one ^ (1 << int(chance() * 8) % 8)
        if trouble.garbled and chance() < trouble.garbled
        else one
        for one in kept
    )
