"""Sending from a bench that several people look at: one thing at a time, and it can be stopped."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from enum import StrEnum

from thruline.app.frame import Json
from thruline.app.parted import gone_says, names_of
from thruline.app.send import Step
from thruline.app.send_answer import step_json
from thruline.base.errors import CannotUse, ThrulineError, WorldFailed
from thruline.bench.face import PortGone, WallClock
from thruline.bench.send import Planned
from thruline.bench.several import Took, Way, play_again, play_parted, silence_every

SLICE_US = 20_000
"""How soon a wait ends when it is stopped."""


class Progress(StrEnum):
    """Where a sending stands."""

    IDLE = "idle"
    PLAYING = "playing"
    ASKS = "asks"
    """It waits until somebody says what the display shows."""
    DONE = "done"
    STOPPED = "stopped"
    FAILED = "failed"


class Sending:
    """What is being sent, to which ports."""

    def __init__(self, clock: WallClock) -> None:
        self._clock = clock
        self._stopped = False
        self.outputs: Sequence[Way] = ()
        self.lost: tuple[Took, ...] = ()
        self.gone: Mapping[str, str] = {}
        self.is_sound_down = False
        self.progress = Progress.IDLE
        self.title = ""
        self.says = ""
        self.steps: tuple[Step, ...] = ()
        self.place = 0

    def begin(self, title: str, steps: Iterable[Step]) -> Callable[[], None]:
        """Get ready to send steps, with a question after each; gives what plays the first.

        Raises CannotUse when the sound may be up, nothing can be sent to, or something is sent.
        """
        self.may_send()
        self.steps, self.title, self.place, self.says = tuple(steps), title, 0, ""
        self.lost = ()
        self._stopped, self.progress = False, Progress.PLAYING
        return self._play

    def begin_other(
        self, title: str, play_it: Callable[[Callable[[], bool]], int], *, count: int
    ) -> Callable[[], None]:
        """Get ready for something else that sends, such as a backup; gives what does it.

        `play_it` is given what says whether to go on, and gives how many messages it sent.
        """
        self.refuse_if_busy()
        self.steps, self.title, self.place, self.says = (), title, 0, ""
        self.lost = ()
        self._stopped, self.progress = False, Progress.PLAYING

        def play_all() -> None:
            try:
                sent = play_it(self._goes_on)
            except Exception as trouble:  # noqa: BLE001 - whatever it was, nothing is sent any more
                self._failed(trouble, then="the unit may hold a mixture, so send it again")
                return
            whole = sent == count
            self.progress = Progress.DONE if whole else Progress.STOPPED
            self.says = (
                f"{count} messages sent"
                if whole
                else f"STOPPED after {sent} of {count} messages: the unit now holds a mixture"
            )

        return play_all

    def may_send(self) -> None:
        """Raise CannotUse when nothing may be sent now, saying why."""
        if not self.outputs:
            raise CannotUse("choose a port to send to first, above under Ports")
        if not self.is_sound_down:
            raise CannotUse("say first that the sound is turned down")
        self.refuse_if_busy()

    def refuse_if_busy(self) -> None:
        """Raise CannotUse while something is being sent."""
        if self.progress is Progress.PLAYING:
            raise CannotUse(f"{self.title} is being sent just now; wait for it, or press Panic")

    def answer(self, *, is_so: bool) -> Callable[[], None] | None:
        """What the person saw on the unit; gives what plays the next step, if there is one.

        Raises CannotUse when nothing was asked.
        """
        if self.progress is not Progress.ASKS:
            raise CannotUse("nothing is asked just now")
        shown = "; ".join(one.says for one in self.steps[self.place].shows)
        if not is_so:
            self.progress = Progress.STOPPED
            self.says = f"stopped, for this is not so: {shown}. The page Find looks for the reason"
            return None
        if self.place + 1 == len(self.steps):
            self.progress, self.says = Progress.DONE, "every unit shows what it should"
            return None
        self.may_send()
        self.place += 1
        self._stopped, self.progress = False, Progress.PLAYING
        return self._play

    def again(self) -> Callable[[], None]:
        """Get ready to send again what went to ports that had gone; gives what sends it.

        Raises CannotUse when nothing lacks, or nothing may be sent.
        """
        self.may_send()
        if not self.lost:
            raise CannotUse("nothing is left to be sent again")
        lost = tuple(replace(one, way=self._way_of(one.way)) for one in self.lost)
        self._stopped, self.progress = False, Progress.PLAYING
        return lambda: self._play_with(lambda clock: self._play_again(lost, clock))

    def _way_of(self, lost: Way) -> Way:
        """The way as it is open now; that of the same port, where ports were opened anew."""
        same = [one for one in self.outputs if one.says == lost.says]
        if not same:
            raise CannotUse(f"{lost.says} is not open any more; choose it again under Ports")
        return same[0]

    def _play(self) -> None:
        """Send the step that it is the turn of."""
        messages = self.steps[self.place].messages
        self._play_with(
            lambda clock: play_parted(messages, self.outputs, clock, goes_on=self._goes_on)
        )

    def _play_again(self, lost: Sequence[Took], clock: WallClock) -> tuple[Took, ...]:
        return play_again(lost, clock, goes_on=self._goes_on)

    def _play_with(self, play_it: Callable[[WallClock], tuple[Took, ...]]) -> None:
        """Send, and see what came of it."""
        step = self.steps[self.place]
        try:
            took = play_it(_Stoppable(self._clock, self._goes_on))
        except Exception as trouble:  # noqa: BLE001 - as above
            self._failed(trouble, then="look at what the units show, and send it again")
            return
        self.lost = tuple(one for one in took if one.trouble)
        if self._stopped:
            self.progress, self.says = Progress.STOPPED, "stopped before all was sent"
        elif self.lost:
            self.progress, self.says = Progress.FAILED, gone_says(took, names_of(step))
        else:
            asks = len(self.steps) > 1
            self.progress = Progress.ASKS if asks else Progress.DONE
            count = len(step.messages)
            self.says = f"{count} {'message' if count == 1 else 'messages'} sent"

    def _failed(self, trouble: Exception, *, then: str) -> None:
        """Say why nothing is sent any more, and what to do where nobody else says that."""
        self.progress = Progress.FAILED
        self.says = (
            trouble.says
            if isinstance(trouble, ThrulineError)
            else f"sending went wrong ({type(trouble).__name__}: {trouble}); {then}"
        )

    def watch(self) -> bool:
        """Look whether the ports are there, while nothing is sent; whether one has gone or come.

        `gone` holds afterwards what is said of those that are not there, by their names.
        """
        if self.progress is Progress.PLAYING:
            return False
        before, self.gone = self.gone, dict(_troubles(self.outputs))
        return before.keys() != self.gone.keys()

    def send_now(self, messages: Iterable[Planned], *, lands: bool = False) -> None:
        """Send a few messages that nobody has to wait for, or with `lands` until they have left.

        Raises PortGone when a port goes; the others were sent them all the same.
        """
        took = play_parted(messages, self.outputs, self._clock, lands=lands)
        troubles = [one.trouble for one in took if one.trouble]
        if troubles:
            raise PortGone("; ".join(troubles))

    def _goes_on(self) -> bool:
        return not self._stopped

    def stop(self) -> None:
        """Send nothing more; what plays ends within a moment."""
        self._stopped = True
        if self.progress is Progress.ASKS:
            self.progress, self.says = Progress.STOPPED, "stopped"

    def silence(self, channels: Iterable[int]) -> str:
        """All sound and all notes off at every port, whether or not others take it; in words.

        Raises WorldFailed when not one port took it.
        """
        return silence_every(self.outputs, channels, self._clock)

    def as_json(self) -> Json:
        """Where it stands, for a page."""
        shown = self.progress is not Progress.IDLE
        return {
            "progress": self.progress.value,
            "title": self.title,
            "says": self.says,
            "place": self.place,
            "steps": [step_json(one) for one in self.steps] if shown else [],
            "again": [one.way.says for one in self.lost] if shown else [],
            "is_sound_down": self.is_sound_down,
        }


def _troubles(ways: Iterable[Way]) -> Iterator[tuple[str, str]]:
    """The ports that are not there, and what is said of each."""
    for way in ways:
        try:
            way.port.look()
        except WorldFailed as trouble:
            yield way.port.name, trouble.says


class _Stoppable:
    """A clock whose waits end soon after something is stopped."""

    def __init__(self, clock: WallClock, goes_on: Callable[[], bool]) -> None:
        self._clock, self._goes_on = clock, goes_on

    def now_us(self) -> int:
        """The present."""
        return self._clock.now_us()

    def wait_until(self, moment_us: int) -> None:
        """Come back at that moment, or sooner when stopped."""
        while self._goes_on() and moment_us - self._clock.now_us() > SLICE_US:
            self._clock.wait_until(self._clock.now_us() + SLICE_US)
        if self._goes_on():
            self._clock.wait_until(moment_us)
