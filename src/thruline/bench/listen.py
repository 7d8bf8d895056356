"""Listening: all that comes in on some ports, as entries of a capture, with a log that is kept."""

from collections.abc import Sequence

from thruline.audit.capture import Came, Entry, Note, NoteKind
from thruline.audit.capture_text import entry_row, head_rows
from thruline.base.errors import WorldFailed
from thruline.bench.face import Log, WallClock
from thruline.bench.plugged import HeldInput

TURN_US = 2_000
"""How long a listener rests between two looks at its ports."""


class Session:
    """Ports that are listened to, and the log of what came.

    `lines` are the names under which the capture knows the ports, in their order. A log that takes
    nothing more is let go, with a note; the session goes on, and `close` says it once more.
    """

    def __init__(
        self,
        inputs: Sequence[HeldInput],
        clock: WallClock,
        *,
        lines: Sequence[str],
        began: str = "",
    ) -> None:
        self._inputs = tuple(inputs)
        self._clock = clock
        self._start_us = clock.now_us()
        self._log: Log | None = None
        self._lost: WorldFailed | None = None
        self._last_us = 0
        self.lines = tuple(lines)
        self.began = began

    @property
    def clock(self) -> WallClock:
        """The clock that it goes by."""
        return self._clock

    @property
    def passed_us(self) -> int:
        """Time since the session began."""
        return self._clock.now_us() - self._start_us

    def keep(self, log: Log) -> None:
        """Write everything from here on into a log. Raises WorldFailed when it takes nothing."""
        log.add(list(head_rows(self.lines, began=self.began)))
        self._log = log

    def turn(self) -> list[Entry]:
        """All that has come since the last turn, in order, as it was logged."""
        found: list[Entry] = []
        for number, port in enumerate(self._inputs, 1):
            chunks, change = port.take()
            found += [Came(self._at(chunk.at_us), number, chunk.data) for chunk in chunks]
            if change:
                kind = NoteKind.GONE if change == "gone" else NoteKind.BACK
                found.append(Note(self._at(self._clock.now_us()), number, kind, port.name))
        found.sort(key=_moment)
        return self._logged(found)

    def note(self, kind: NoteKind, text: str) -> list[Entry]:
        """Write down what a person did or should know."""
        return self._logged([Note(self._at(self._clock.now_us()), 0, kind, text)])

    def _at(self, moment_us: int) -> int:
        """A moment of the clock as time in the capture, which never runs backwards."""
        return max(self._last_us, moment_us - self._start_us)

    def _logged(self, entries: list[Entry]) -> list[Entry]:
        if entries:
            self._last_us = entries[-1].at_us
        if self._log is None or not entries:
            return entries
        try:
            self._log.add([entry_row(one) for one in entries])
        except WorldFailed as trouble:
            self._log, self._lost = None, trouble
            return [*entries, Note(self._last_us, 0, NoteKind.SAYS, f"not logged: {trouble.says}")]
        return entries

    def rest(self) -> None:
        """Wait a little, so that the computer can do other things."""
        self._clock.wait_until(self._clock.now_us() + TURN_US)

    def close(self) -> None:
        """Let go of the ports and bring the log to disk.

        Raises WorldFailed when that fails, or the log took nothing more before.
        """
        for port in self._inputs:
            port.close()
        if self._log is not None:
            self._log.close()
        if self._lost is not None:
            raise self._lost


def closed(session: Session) -> WorldFailed | None:
    """Close a session that was of use even without its log; what was wrong with the log."""
    try:
        session.close()
    except WorldFailed as trouble:
        return trouble
    return None


def _moment(entry: Entry) -> int:
    return entry.at_us
