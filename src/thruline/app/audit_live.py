"""An audit while it happens: one press after the other, each ticked off when it has been heard."""

from collections.abc import Callable, Iterable, Iterator

from thruline.audit.align import SILENCE_US
from thruline.audit.capture import Came, Capture, Ear, Entry, Note, NoteKind, is_of_a_press
from thruline.audit.explain import Cause
from thruline.audit.follow import Follower
from thruline.audit.meant import Meant, Step
from thruline.audit.verdict import Ticked, Verdict, verdict
from thruline.bench.listen import Session
from thruline.midi import specs

_UNASKED = (NoteKind.GONE, NoteKind.BACK, NoteKind.SAYS)


class Hearing:
    """Whether what comes is of a press, or goes on beside it."""

    def __init__(self) -> None:
        self._ear = Ear()

    def hear(self, came: Iterable[Came], *, goes_on: bool) -> bool:
        """Whether some of it is of a press; while one `goes_on`, bytes of a message are too."""
        of_a_press = False
        for one in came:
            whole = list(self._ear.take(one))
            is_part = goes_on and not whole and one.data[0] < specs.CLOCK.status
            of_a_press |= is_part or any(is_of_a_press(each) for each in whole)
        return of_a_press


class Presses:
    """A session in which a person presses what is asked for; everything heard is kept.

    `tell` is given at once what happens beside the bytes: a port that goes, a log that is full.
    """

    def __init__(
        self,
        session: Session,
        meant: Meant,
        *,
        patience_us: int,
        tell: Callable[[Note], None] = lambda _: None,
    ) -> None:
        self._session = session
        self._meant = meant
        self._patience_us = patience_us
        self._tell = tell
        self._hearing = Hearing()
        self._follower = Follower(meant, session.lines)
        self.entries: list[Entry] = []

    def asked(self) -> Iterator[Step]:
        """Each step in turn; it has been heard, or waited for in vain, when the next is asked."""
        for step in self._meant.steps:
            kind = NoteKind.PRESS if step.sweep is None else NoteKind.SWEEP
            self._hear()
            self._keep(self._session.note(kind, step.sweep or str(step.preset)))
            yield step
            if not self._wait():
                self._keep(self._session.note(NoteKind.SKIP, step.title))

    def _hear(self) -> list[Entry]:
        """What has come since the last time."""
        return self._keep(self._session.turn())

    def _keep(self, entries: list[Entry]) -> list[Entry]:
        self.entries += entries
        for one in entries:
            self._follower.take(one)
            if isinstance(one, Note) and one.kind in _UNASKED:
                self._tell(one)
        return entries

    def _wait(self) -> bool:
        """Until something came and then nothing more; False when patience was over before."""
        begin_us, last_us = self._session.passed_us, -1
        while True:
            came = [one for one in self._hear() if isinstance(one, Came)]
            now_us = self._session.passed_us
            if self._hearing.hear(came, goes_on=last_us >= 0):
                last_us = now_us
            if last_us >= 0 and now_us - last_us >= SILENCE_US:
                return True
            if last_us < 0 and now_us - begin_us >= self._patience_us:
                return False
            self._session.rest()

    @property
    def capture(self) -> Capture:
        """Everything so far."""
        return Capture(
            lines=self._session.lines, entries=tuple(self.entries), began=self._session.began
        )

    def so_far(self) -> Verdict | None:
        """The verdict over all that was pressed until now; None before anything was.

        What is asked for just now and was not heard yet is no part of it.
        """
        aligned = self._follower.aligned()
        return verdict(self._meant, aligned) if aligned.pressed.any() else None


def tick_of(found: Verdict, step: int) -> Ticked:
    """How one step went."""
    return found.ticks[step]


def cause_of(found: Verdict) -> Cause | None:
    """The likeliest cause, if it is any mistake at all."""
    return found.best if found.best.faults else None
