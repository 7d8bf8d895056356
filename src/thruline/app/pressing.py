"""An audit on a bench that is looked at by several people: press by press, at the person's pace."""

from collections.abc import Sequence

from thruline.app.audit import audit, audit_json, verdict_on
from thruline.app.audit_live import Hearing
from thruline.app.frame import Json
from thruline.audit.align import SILENCE_US
from thruline.audit.capture import Came, Capture, Entry, NoteKind
from thruline.audit.follow import Follower
from thruline.audit.meant import Meant, Step
from thruline.audit.verdict import Verdict
from thruline.base.errors import CannotUse
from thruline.rig.whole import Rig


class Pressing:
    """What is asked for now, and everything heard since it began.

    `note` gives what to write down when the next step is asked for or one is passed over.
    """

    def __init__(self, meant: Meant, rig: Rig, *, lines: Sequence[str]) -> None:
        self.meant = meant
        self.rig = rig
        self._lines = tuple(lines)
        self._entries: list[Entry] = []
        self._place = 0
        self._last_us: int | None = None
        self._hearing = Hearing()
        self._follower = Follower(meant, lines)
        self._aligned = self._follower.aligned()
        self._judged: tuple[int, Json | None] = (-1, None)

    @property
    def step(self) -> Step | None:
        """What is asked for; None when all has been."""
        steps = self.meant.steps
        return steps[self._place] if self._place < len(steps) else None

    @property
    def note(self) -> tuple[NoteKind, str] | None:
        """How what is asked for is written down."""
        step = self.step
        if step is None:
            return None
        if step.sweep is not None:
            return NoteKind.SWEEP, step.sweep
        return NoteKind.PRESS, str(step.preset)

    def hear(self, entries: Sequence[Entry], now_us: int) -> bool:
        """Take in what came; whether with it the step is over, so that the next can be asked."""
        self._take(entries)
        came = [one for one in entries if isinstance(one, Came)]
        if self._hearing.hear(came, goes_on=self._last_us is not None):
            self._last_us = now_us
        if self.step is None or self._last_us is None or now_us - self._last_us < SILENCE_US:
            return False
        self._forward()
        return True

    def skip(self) -> str:
        """Pass over what is asked for; its title. Raises CannotUse when nothing is asked for."""
        step = self.step
        if step is None:
            raise CannotUse("everything was asked for already")
        self._forward()
        return step.title

    def write(self, entries: Sequence[Entry]) -> None:
        """A note that was written down."""
        self._take(entries)
        self._aligned = self._follower.aligned()

    def _take(self, entries: Sequence[Entry]) -> None:
        self._entries += entries
        for one in entries:
            self._follower.take(one)

    def _forward(self) -> None:
        self._place += 1
        self._last_us = None
        self._aligned = self._follower.aligned()

    @property
    def capture(self) -> Capture:
        """Everything so far."""
        return Capture(lines=self._lines, entries=tuple(self._entries))

    def judged(self) -> Json | None:
        """The answer so far, worked out once for each press; None before anything came."""
        place = self._place
        if self._judged[0] != place:
            try:
                found = _told(verdict_on(self._aligned, self.meant), self.meant, self.rig)
            except CannotUse:
                found = None
            self._judged = place, found
        return self._judged[1]

    def as_json(self) -> Json:
        """Where it stands, for a page."""
        step = self.step
        return {
            "place": self._place,
            "count": len(self.meant.steps),
            "asks": step.title if step else "",
            "moves": bool(step and step.sweep is not None),
        }


def judged(capture: Capture, meant: Meant, rig: Rig) -> Json:
    """The answer about a capture, with the preset of each press. Raises CannotUse as `audit`."""
    return _told(audit(capture, meant), meant, rig)


def _told(found: Verdict, meant: Meant, rig: Rig) -> Json:
    told = audit_json(found, meant, rig)
    for tick, press in zip(found.ticks, told["presses"], strict=True):
        press["preset"] = meant.steps[tick.step].preset
    return told
