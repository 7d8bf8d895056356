"""One port of the port library while it is open: is it there, and did what was sent leave?

The library says neither: to a box that was pulled out it goes on sending without a word, and it
does not notice either that the box is back, for the connection is another one then.
"""

import ctypes
import re
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from typing import Any

from thruline.base.errors import WorldFailed
from thruline.bench.face import Chunk, CutOff, PortGone, WallClock
from thruline.bench.port_names import equals_of

LOOK_EVERY_US = 400_000
"""How often it is looked whether a port in use is there; asking costs up to half a millisecond."""
UNSEEN_US = 700_000
"""A port at which nobody looked for this long may have gone and come back meanwhile.

Sooner no hand is able to it: a plug out, in again, and the box has to sign on.
"""
ANSWER_EVERY_US = 5_000_000
"""How often, while nothing comes in, it is asked whether the system answers at all."""
JOINING_US, LEAVING_US = 150_000, 150_000
"""How long after it was opened a port surely takes part, and what it was handed has surely left.

The library says neither; on a busy computer the first message over JACK came to nobody, and the
last ones when the port was closed right behind them.
"""
OWN_NUMBER = re.compile(r"\s\d+:\d+$")
"""Client and port, as the kernel's sequencer numbers them: no two ports have the same."""


@dataclass(slots=True)
class Life:
    """The time for which the system of ports answers: with its server, what was opened is lost."""

    is_over: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """A port of the library that is open, and how to ask about it.

    `names` are the ports that are there now, cheaply; `lives` asks by a new connection whether the
    system still knows this one, and raises WorldFailed when it does not answer.
    """

    port: Any
    name: str
    names: Callable[[], tuple[str, ...]]
    lives: Callable[[], bool]
    life: Life


class _Open:
    """A port of the library that is open."""

    def __init__(self, link: Link, clock: WallClock) -> None:
        self._link, self._clock = link, clock
        self._port, self._name = link.port, link.name
        self._most = len(equals_of(link.name, link.names()))
        self._seen_us = clock.now_us()

    @property
    def name(self) -> str:
        """What the system calls it."""
        return self._name

    def _look_now_and_then(self) -> int:
        """Look, unless that was done a moment ago. Raises PortGone. Gives the present, us."""
        now = self._clock.now_us()
        if now >= self._seen_us + LOOK_EVERY_US or self._link.life.is_over:
            self._ask()
        return now

    def _ask(self) -> None:
        """Is it there, as the system says? Raises PortGone."""
        if self._link.life.is_over:
            raise CutOff(self._system_says())
        try:
            names = self._link.names()
        except Exception as trouble:
            raise CutOff(f'port "{self._name}" is gone: {trouble}') from trouble
        if not equals_of(self._name, names):
            raise CutOff(f'port "{self._name}" is gone')
        if not self._is_among(names):
            raise PortGone(f'port "{self._name}" is gone')
        self._seen_us = self._clock.now_us()

    def _system_says(self) -> str:
        return (
            f'port "{self._name}" is gone, for its MIDI system stopped or began anew; '
            "see that it runs"
        )

    def _is_among(self, names: Sequence[str]) -> bool:
        """Whether it may still be there. A port with a number of the system's own is, or is not.

        Of equal ones only their count tells: when one goes the others may be it, so all are gone
        until it is back. A new one may change how the others are told here, and takes nothing.
        """
        if OWN_NUMBER.search(self._name):
            return self._name in names
        count = len(equals_of(self._name, names))
        self._most = max(self._most, count)
        return count == self._most

    def _is_connected(self) -> bool:
        """Whether the system still knows this connection; when not, its life is over."""
        try:
            known = not self._link.life.is_over and self._link.lives()
        except WorldFailed:
            known = False
        if not known:
            self._link.life.is_over = True
        return known

    def close(self) -> None:
        """Let go of it."""
        if not self._is_connected():
            _keep_for_ever(self._port)
            return
        with suppress(Exception):  # a system that went away cannot be told
            self._port.close_port()
            self._port.delete()


def _keep_for_ever(port: object) -> None:
    """Never take down a port whose server has died.

    The server's library has freed what belongs to it by then, and would crash the whole program.
    """
    ctypes.pythonapi.Py_IncRef(ctypes.py_object(port))


class SystemInput(_Open):
    """A port to listen to.

    Messages wait in the library's own queue until they are fetched. It could call back for each,
    but then the system's most urgent thread would have to wait for Python, and a JACK server that
    has to wait gives messages out of an earlier round again.
    """

    def __init__(self, link: Link, clock: WallClock) -> None:
        super().__init__(link, clock)
        self._stamps = Stamps()
        self._answered_us = clock.now_us()

    def take(self) -> list[Chunk]:
        """All that has come since the last time. Raises PortGone."""
        found = []
        while (event := self._port.get_message()) is not None:
            data, since = event
            at_us = self._stamps.stamp(round(since * 1_000_000), self._clock.now_us())
            found.append(Chunk(at_us, bytes(data)))
        now = self._clock.now_us()
        if found:
            self._answered_us = now
            return found
        if now >= self._answered_us + ANSWER_EVERY_US:
            self._answered_us = now
            self._is_connected()
        self._look_now_and_then()
        return found


class Stamps:
    """Moments on our clock for messages of which the library tells how long they are apart.

    A message cannot have come after it was fetched, so the smallest lag ever seen between the two
    clocks is the nearest to the truth; it may grow by a ten-thousandth, as clocks drift.
    """

    def __init__(self) -> None:
        self._total_us = 0
        self._offset_us: int | None = None
        self._last_us = 0

    def stamp(self, since_us: int, now_us: int) -> int:
        """When a message came: `since_us` after the one before, fetched now."""
        self._total_us += since_us
        lag = now_us - self._total_us
        known = self._offset_us
        self._offset_us = lag if known is None else min(lag, known + since_us // 10_000)
        self._last_us = max(self._last_us, self._total_us + self._offset_us)
        return self._last_us


class SystemOutput(_Open):
    """A port to send to.

    The library takes any number of messages and drops what is too much without a word, so whoever
    sends must keep to the speed of the line.
    """

    def __init__(self, link: Link, clock: WallClock, *, longest: int | None = None) -> None:
        super().__init__(link, clock)
        self.longest = longest
        self._joined_us = clock.now_us() + JOINING_US
        self._left_us = clock.now_us()

    def look(self) -> None:
        """See that it is there and takes part. Raises PortGone, and CutOff when nobody looked long.

        Of equal ports it cannot be told which came back, so that these are only asked for.
        """
        now = self._clock.now_us()
        is_told = self._most == 1 or OWN_NUMBER.search(self._name)
        if now > self._seen_us + UNSEEN_US and is_told:
            raise CutOff(f'port "{self._name}" may have been gone meanwhile')
        self._ask()
        self._clock.wait_until(self._joined_us)

    def send(self, data: bytes) -> None:
        """Hand over one message. Raises PortGone, and WorldFailed for one that would be lost."""
        if self.longest is not None and len(data) > self.longest:
            raise WorldFailed(
                f"a message of {len(data):,} bytes is not sent: this MIDI system loses whatever is "
                f"longer than {self.longest:,}; use another port, or a serial line"
            )
        now = self._look_now_and_then()
        if now < self._joined_us:
            self._clock.wait_until(self._joined_us)
            now = self._joined_us
        try:
            self._port.send_message(data)
        except (OSError, ValueError, RuntimeError) as trouble:
            raise PortGone(f'port "{self._name}" does not take messages: {trouble}') from trouble
        self._left_us = now + LEAVING_US

    def land(self) -> None:
        """Wait until what was handed over has surely left; raises PortGone when the port went."""
        self._clock.wait_until(self._left_us)
        if not self._is_connected():
            raise CutOff(self._system_says())
        self._ask()

    def _ask(self) -> None:
        try:
            super()._ask()
        except PortGone:
            self._left_us = self._clock.now_us()  # nothing of it can leave any more
            raise

    def close(self) -> None:
        """Let go of it, once what was handed over last has left."""
        self._clock.wait_until(self._left_us)
        super().close()
