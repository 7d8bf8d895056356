"""What is on the wire: a capture, or what comes in right now, in the rig's words."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from thruline.app.frame import Json, answer
from thruline.audit.capture import Capture, Ear, caught
from thruline.base.errors import CannotUse
from thruline.bench.listen import Session
from thruline.bench.telling import Choice, Kind, Teller, Told, tell_all
from thruline.midi.words import in_hex
from thruline.proof.case import Case
from thruline.rig.nearest import nearest


@dataclass(frozen=True, slots=True)
class Line:
    """A port to listen to, and what the capture calls its line."""

    port: str
    name: str


def line_of(word: str) -> Line:
    """A line as a person writes it: a port, or `SOCKET=PORT` with the socket that it is on."""
    socket, equals, port = word.partition("=")
    if not equals:
        return Line(word, word)
    if not socket.strip() or not port.strip():
        raise CannotUse(
            f'"{word}" is no line; write a port, or a socket and its port: feet.out=USB'
        )
    return Line(port.strip(), socket.strip())


def lines_of(words: Sequence[str]) -> list[Line]:
    """Lines as a person writes them (see `line_of`). Raises CannotUse when two are called alike."""
    lines = [line_of(word) for word in words]
    names = [line.name for line in lines]
    twice = next((name for name in names if names.count(name) > 1), None)
    if twice is not None:
        raise CannotUse(f'"{twice}" is there twice; give each port a line of its own')
    return lines


def choice_of(
    case: Case | None, lines: Sequence[str], *, only: Sequence[str], hide: Sequence[str]
) -> Choice:
    """What a person wants to see. Raises CannotUse for a word that nothing here is called."""
    known = {kind.value for kind in Kind} | set(lines)
    known |= set(case.rig.units) if case else set()
    for word in (*only, *hide):
        if word not in known:
            meant = nearest(word, sorted(known))
            hint = f'did you mean "{meant}"?' if meant else f"there are {', '.join(sorted(known))}"
            raise CannotUse(f'"{word}" is no unit, line or kind of message here; {hint}')
    return Choice(only=frozenset(only), hide=frozenset(hide))


def told_of(capture: Capture, case: Case | None, choice: Choice) -> Iterator[Told]:
    """A capture in words."""
    yield from tell_all(Teller(case, capture.lines), caught(capture), choice)


def listen(
    session: Session, teller: Teller, choice: Choice, *, until_us: Callable[[], int | None]
) -> Iterator[Told]:
    """What comes in, in words, until the session has lasted that long; None is without end."""
    ear = Ear()
    while (end := until_us()) is None or session.passed_us < end:
        entries = session.turn()
        for entry in entries:
            yield from tell_all(teller, iter(ear.hear(entry)), choice)
        if not entries:
            session.rest()


def listen_json(told: Sequence[Told], *, log: str | None) -> Json:
    """What came, for other programs."""
    rows = [
        {
            "at_us": one.at_us,
            "line": one.line,
            "kind": one.kind.value,
            "to": list(one.units),
            "says": one.says,
            "bytes": in_hex(one.raw),
        }
        for one in told
    ]
    return answer("listen", came=rows, log=log)
