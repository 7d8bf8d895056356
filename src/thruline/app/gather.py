"""Answers of a unit: what comes in until it has been quiet for a while."""

from collections.abc import Iterator

from thruline.app.load import Opened
from thruline.audit.capture import Came, Capture, Caught, Ear, Note, NoteKind, caught
from thruline.base.errors import CannotUse
from thruline.bench.face import PortGone
from thruline.bench.listen import Session
from thruline.midi import specs
from thruline.rig.nearest import nearest
from thruline.rig.socket import MIDI_KINDS
from thruline.rig.unit import Unit


def gather(session: Session, *, patience_us: int, quiet_us: int) -> Iterator[Caught]:
    """Everything but clock and sensing, until nothing has come for `quiet_us`.

    The first may take `patience_us`. Raises PortGone when a port goes: what a unit said until then
    may be whole messages and still be half of its answer.
    """
    ear, end_us = Ear(), session.passed_us + patience_us
    while session.passed_us < end_us:
        entries = session.turn()
        for entry in entries:
            if isinstance(entry, Came):
                yield from ear.take(entry)
                if entry.data[0] < specs.CLOCK.status:
                    end_us = session.passed_us + quiet_us
            elif entry.kind is NoteKind.GONE:
                raise PortGone(went_away(entry))
        if not entries:
            session.rest()
    for line in range(1, len(session.lines) + 1):
        yield from ear.end(end_us, line)


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
