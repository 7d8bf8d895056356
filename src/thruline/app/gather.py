"""Answers of a unit: what comes in until it has been quiet for a while."""

from collections.abc import Iterable, Iterator

from thruline.app.load import Opened
from thruline.audit.capture import Came, Capture, Caught, Ear, Entry, Note, NoteKind, caught
from thruline.base.errors import CannotUse
from thruline.base.measures import BYTE_US
from thruline.bench.face import PortGone
from thruline.bench.listen import Session
from thruline.midi import specs
from thruline.rig.nearest import nearest
from thruline.rig.socket import MIDI_KINDS
from thruline.rig.unit import Unit


class Gathering:
    """Everything but clock and sensing, until nothing has come for `quiet_us`.

    Some ports hand over a message when all of it has come, so it counts as quiet only after twice
    as long as the longest piece so far took on the line. `trouble` is set when a port goes: what a
    unit said until then may be whole messages and still be half of its answer.
    """

    def __init__(self, *, until_us: int, quiet_us: int) -> None:
        self._ear = Ear()
        self._end_us, self._quiet_us = until_us, quiet_us
        self.events: list[Caught] = []
        self.trouble = ""
        self.count = 0
        """Bytes so far."""
        self.is_over = False

    def hear(self, entries: Iterable[Entry], now_us: int) -> bool:
        """Take in what came; whether it is over. What is left unfinished then is an event, too."""
        for entry in entries:
            if not isinstance(entry, Came):
                if entry.kind is NoteKind.GONE:
                    self._end_us, self.trouble = now_us, went_away(entry)
                continue
            self._take(self._ear.take(entry))
            size = sum(byte < specs.CLOCK.status for byte in entry.data)
            if size:
                self.count += size
                self._quiet_us = max(self._quiet_us, 2 * BYTE_US * size)
                self._end_us = now_us + self._quiet_us
        if now_us >= self._end_us and not self.is_over:
            self.is_over = True
            self._take(self._ear.unfinished(now_us))
        return self.is_over

    def _take(self, events: Iterable[Caught]) -> None:
        self.events += (one for one in events if one.raw[0] < specs.CLOCK.status)


def gather(session: Session, *, patience_us: int, quiet_us: int) -> list[Caught]:
    """What comes until it has been quiet, as `Gathering`; the first may take `patience_us`.

    Raises PortGone when a port goes.
    """
    gathering = Gathering(until_us=session.passed_us + patience_us, quiet_us=quiet_us)
    while True:
        entries = session.turn()
        if gathering.hear(entries, session.passed_us):
            break
        if not entries:
            session.rest()
    if gathering.trouble:
        raise PortGone(gathering.trouble)
    return gathering.events


def went_away(note: Note) -> str:
    """What is said when the port of an answer has gone before the answer was over."""
    return (
        f'port "{note.text}" went away in the middle, so nothing of this counts; '
        "plug it in again and repeat this"
    )


def gathered(capture: Capture) -> Iterator[Caught]:
    """The same from a capture that was kept."""
    return (one for one in caught(capture) if not isinstance(one, Note))


def pick_unit(opened: Opened, name: str) -> Unit:
    """A unit by its id. Raises CannotUse, naming the nearest, when there is none."""
    units = opened.rig.units
    if name in units:
        return units[name]
    meant = nearest(name, list(units))
    hint = f'did you mean "{meant}"?' if meant else f"there are {', '.join(units)}"
    raise CannotUse(f'there is no unit "{name}" in this rig; {hint}')


def refuse_without_midi(unit: Unit) -> None:
    """Raise CannotUse for a unit whose memory MIDI cannot reach."""
    if not any(socket.kind in MIDI_KINDS for socket in unit.chart.sockets.values()):
        raise CannotUse(
            f'"{unit.id}" ({unit.chart.full_name}) has no MIDI socket, so it has no memory to be '
            "kept over MIDI"
        )
