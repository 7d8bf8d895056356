"""Ports that stay open: all that comes in is logged, told in words, handed to who waits."""

from collections import deque
from collections.abc import Iterator, Sequence
from itertools import islice

from thruline.app.frame import Json
from thruline.audit.capture import Caught, Ear, Entry, Note, NoteKind
from thruline.bench.listen import Session
from thruline.bench.telling import Choice, Teller, Told
from thruline.midi.words import in_hex
from thruline.proof.case import Case

MOST_TOLD = 4_000
"""As many of the latest are kept in words; the log has all."""
MOST_ROWS = 400
"""As many are given at once."""


class Listening:
    """A session with everything that was told of it, numbered from 1."""

    def __init__(self, session: Session, case: Case) -> None:
        self._session = session
        self._ear = Ear()
        self._teller = Teller(case, session.lines)
        self._told: deque[Told] = deque(maxlen=MOST_TOLD)
        self.count = 0

    @property
    def lines(self) -> tuple[str, ...]:
        """What the lines are called."""
        return self._session.lines

    @property
    def session(self) -> Session:
        """The session itself."""
        return self._session

    def use(self, teller: Teller) -> None:
        """From now on tell in the words of a rig that was changed."""
        self._teller = teller

    def turn(self) -> tuple[list[Entry], list[Caught | Note]]:
        """What has come since the last turn, as it came and as messages."""
        entries = self._session.turn()
        return entries, self._tell(entries)

    def note(self, kind: NoteKind, text: str) -> list[Entry]:
        """Write down what a person did; it is told as well."""
        entries = self._session.note(kind, text)
        self._tell(entries)
        return entries

    def _tell(self, entries: Sequence[Entry]) -> list[Caught | Note]:
        events: list[Caught | Note] = []
        for entry in entries:
            events += self._ear.hear(entry)
        for event in events:
            self._told.append(self._teller.tell(event))
        self.count += len(events)
        return events

    def rows(self, after: int, choice: Choice) -> Json:
        """What was told after a number, the latest of it, as far as it is wanted."""
        first = self.count - len(self._told) + 1
        start = max(after + 1, first)
        latest = deque(_numbered(islice(self._told, start - first, None), start, choice), MOST_ROWS)
        return {"count": self.count, "first": first, "rows": [told_json(*one) for one in latest]}

    def close(self) -> None:
        """Let go of the ports. Raises WorldFailed when the log cannot be brought to disk."""
        self._session.close()


def went_wrong(trouble: Exception) -> str:
    """What is said when a turn of listening ended as nobody foresaw."""
    return (
        f"listening went wrong ({type(trouble).__name__}: {trouble}); it goes on, but what came "
        "just then may be missing"
    )


def _numbered(told: Iterator[Told], start: int, choice: Choice) -> Iterator[tuple[int, Told]]:
    for number, one in enumerate(told, start):
        if choice.shows(one):
            yield number, one


def told_json(number: int, told: Told) -> Json:
    """One thing that came, for a page."""
    return {
        "number": number,
        "at": f"{told.at_us / 1_000_000:.4f}",
        "line": told.line,
        "kind": told.kind.value,
        "says": told.says,
        "bytes": in_hex(told.raw, most=24) if told.raw else "",
    }
