"""Learning while it happens: a person says what is pressed, presses it, and it is heard."""

from collections.abc import Iterable, Iterator

from thruline.audit.capture import Came, Capture, Entry, Note, NoteKind
from thruline.audit.digits import is_number
from thruline.bench.listen import Session
from thruline.bench.telling import Teller
from thruline.learn.parts import SILENCE_US
from thruline.midi import specs
from thruline.midi.words import messages_says

SWEEP_WORD = "sweep"
"""What a person writes before the name of a sweep."""
HOW = (
    "Write the number of a preset, and its name if it has one, then press it; write "
    f'"{SWEEP_WORD}" and a name, then move that pedal once, slowly, from heel to toe. Press every '
    "preset three times, so that damaged bytes can be told. An empty row ends it."
)


class Lessons:
    """A session in which a person says what comes next; everything heard is kept."""

    def __init__(self, session: Session, *, patience_us: int) -> None:
        self._session = session
        self._patience_us = patience_us
        self.entries: list[Entry] = []

    def heard(self, rows: Iterable[str]) -> Iterator[str]:
        """For each row that a person writes, what came of it; an empty one ends it."""
        for row in rows:
            said = " ".join(row.split())
            if not said:
                return
            word, _, name = said.partition(" ")
            self.entries += self._session.turn()
            if word.lower() == SWEEP_WORD and name:
                self.entries += self._session.note(NoteKind.SWEEP, name)
            elif is_number(word):
                self.entries += self._session.note(NoteKind.PRESS, said)
            else:
                yield f'"{said}" is neither a number nor "{SWEEP_WORD} NAME"'
                continue
            before = len(self.entries)
            count = self._wait()
            yield from self._notes_from(before)
            if not count:
                self.entries += self._session.note(NoteKind.SKIP, said)
            yield f"{said}: {messages_says(count)} came" if count else f"{said}: nothing came"

    def _notes_from(self, place: int) -> Iterator[str]:
        """What happened beside the bytes, in words: a port that went, a log that is full."""
        teller = Teller(None, self._session.lines)
        for one in self.entries[place:]:
            if isinstance(one, Note):
                yield teller.tell(one).says

    def _wait(self) -> int:
        """Until something came and then nothing more; how many pieces came."""
        begin_us, last_us, count = self._session.passed_us, -1, 0
        while True:
            entries = self._session.turn()
            self.entries += entries
            now_us = self._session.passed_us
            came = [one for one in entries if isinstance(one, Came)]
            mine = sum(1 for one in came if one.data[0] < specs.CLOCK.status)
            if mine:
                last_us, count = now_us, count + mine
            if last_us >= 0 and now_us - last_us >= SILENCE_US:
                return count
            if last_us < 0 and now_us - begin_us >= self._patience_us:
                return 0
            self._session.rest()

    @property
    def capture(self) -> Capture:
        """Everything so far."""
        return Capture(
            lines=self._session.lines, entries=tuple(self.entries), began=self._session.began
        )
