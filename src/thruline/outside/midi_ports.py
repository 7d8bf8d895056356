"""Real ports through the port library, on every system that it knows.

The library is an extra of its own, for not every Python has it ready-made. It is asked for its own
list of systems, and the first that answers is taken.
"""

import os
import re
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from types import ModuleType
from typing import Any

from thruline.base.errors import WorldFailed
from thruline.bench.face import Chunk, PortGone, WallClock
from thruline.bench.port_names import equals_of, told_apart, without_places

NOT_INSTALLED = (
    "MIDI ports need a library that is not installed here. It comes with\n"
    "    pip install 'thruline[ports]'\n"
    "Where there is none ready-made for this Python, pip builds it; that needs a C++ compiler and, "
    "on Debian, the packages build-essential, libasound2-dev and libjack-jackd2-dev. "
    "Captures, audits of captures and the pretend rig work without it."
)
NO_SYSTEM = (
    "there is no MIDI system on this computer: neither the kernel's sequencer (load it with "
    "`modprobe snd-seq`) nor a JACK server (start one, then try again)"
)
OUR_NAME = "thruline"
LOOK_EVERY_US = 400_000
"""How often it is looked whether an open port is still there; asking costs a millisecond."""
MOST_WAITING = 1 << 16
"""Messages that may wait to be fetched; 20 s of a line full of clock."""
JOINING_US, LEAVING_US = 150_000, 150_000
"""How long after it was opened a port surely takes part, and what it was handed has surely left.

The library says neither; on a busy computer the first message over JACK came to nobody, and the
last ones when the port was closed right behind them.
"""
LONGEST_ON_JACK = 16_000
"""Bytes; a longer message vanishes in JACK's buffer of 16 KiB without an error."""
OWN_NUMBER = re.compile(r"\s\d+:\d+$")
"""Client and port, as the kernel's sequencer numbers them: no two ports have the same."""
SEQUENCER = Path("/dev/snd/seq")


def _library() -> ModuleType:
    """The port library. Raises WorldFailed when it is not installed."""
    try:
        import rtmidi  # type: ignore[import-not-found, import-untyped, unused-ignore]  # noqa: PLC0415 - an extra
    except ImportError:
        raise WorldFailed(NOT_INSTALLED) from None
    found: ModuleType = rtmidi
    return found


@contextmanager
def _silenced() -> Iterator[None]:
    """While systems are tried, what their C libraries print is nothing for the person."""
    try:
        kept = os.dup(2)
    except OSError:
        yield
        return
    nowhere = os.open(os.devnull, os.O_WRONLY)
    try:
        sys.stderr.flush()
        os.dup2(nowhere, 2)
        yield
    finally:
        os.dup2(kept, 2)
        os.close(kept)
        os.close(nowhere)


class SystemPorts:
    """The ports of this computer. Raises WorldFailed when there is no library or no system."""

    def __init__(self, clock: WallClock) -> None:
        self._clock = clock
        self._rt = _library()
        os.environ.setdefault("JACK_NO_START_SERVER", "1")  # a server is started by people
        self._api = self._first_that_answers()
        self.says: str = self._rt.get_api_display_name(self._api)

    def _first_that_answers(self) -> int:
        no_sequencer = sys.platform == "linux" and not SEQUENCER.exists()
        for api in self._rt.get_compiled_api():
            if no_sequencer and api == self._rt.API_LINUX_ALSA:
                continue
            with suppress(WorldFailed):
                self._new(self._rt.MidiOut, api).delete()
                return int(api)
        raise WorldFailed(NO_SYSTEM)

    def _new(self, kind: Any, api: int, **more: int) -> Any:  # noqa: ANN401 - without types
        """A library object. Raises WorldFailed when the system does not answer."""
        try:
            with _silenced():
                return kind(api, name=OUR_NAME, **more)
        except (self._rt.RtMidiError, OSError) as trouble:
            raise WorldFailed(f"the MIDI system does not answer: {trouble}") from trouble

    def inputs(self) -> tuple[str, ...]:
        """The names of all ports that can be listened to."""
        return self._names(self._rt.MidiIn)

    def outputs(self) -> tuple[str, ...]:
        """The names of all ports that can be sent to."""
        return self._names(self._rt.MidiOut)

    def _names(self, kind: Any) -> tuple[str, ...]:  # noqa: ANN401 - without types
        asked = self._new(kind, self._api)
        try:
            return tuple(name for name in self._told(asked) if not name.startswith(OUR_NAME))
        finally:
            asked.delete()

    def _told(self, port: Any) -> tuple[str, ...]:  # noqa: ANN401 - without types
        """The names of a library object's ports, each a different one, in the library's order."""
        return names_told(port.get_ports(), has_places=self._api == self._rt.API_WINDOWS_MM)

    def open_input(self, name: str) -> "SystemInput":
        """Listen to a port. Raises PortGone when it is not there."""
        port = self._new(self._rt.MidiIn, self._api, queue_size_limit=MOST_WAITING)
        port.ignore_types(sysex=False, timing=False, active_sense=False)
        self._open(port, name, as_name="listens")
        return SystemInput(port, name, self._clock, names=lambda: self._told(port))

    def open_output(self, name: str) -> "SystemOutput":
        """Send to a port. Raises PortGone when it is not there."""
        port = self._new(self._rt.MidiOut, self._api)
        self._open(port, name, as_name="sends")
        longest = LONGEST_ON_JACK if self._api == self._rt.API_UNIX_JACK else None
        return SystemOutput(
            port, name, self._clock, names=lambda: self._told(port), longest=longest
        )

    def _open(self, port: Any, name: str, *, as_name: str) -> None:  # noqa: ANN401 - without types
        names = self._told(port)
        if name not in names:
            port.delete()
            raise PortGone(f'port "{name}" is not there (any more)')
        try:
            port.open_port(names.index(name), name=as_name)
        except (self._rt.RtMidiError, OSError) as trouble:
            port.delete()
            raise WorldFailed(f'port "{name}" cannot be opened: {trouble}') from trouble


def names_told(names: Sequence[str], *, has_places: bool) -> tuple[str, ...]:
    """Names of the library as they are told here: each a different one, and as stable as can be.

    `has_places` says that the library puts each one's place in the list behind it.
    """
    return told_apart(without_places(names) if has_places else names)


class _Open:
    """A port of the library that is open; `names` are those that are there now."""

    def __init__(
        self,
        port: Any,  # noqa: ANN401 - without types
        name: str,
        clock: WallClock,
        *,
        names: Callable[[], tuple[str, ...]],
    ) -> None:
        self._port, self._name, self._clock, self._names = port, name, clock, names
        self._most = len(equals_of(name, names()))
        self._look_us = clock.now_us() + LOOK_EVERY_US

    @property
    def name(self) -> str:
        """What the system calls it."""
        return self._name

    def _look(self) -> int:
        """Now and then: is it still there? The library itself never says. Raises PortGone.

        Gives the present, us.
        """
        now = self._clock.now_us()
        if now < self._look_us:
            return now
        self._look_us = now + LOOK_EVERY_US
        try:
            names = self._names()
        except Exception as trouble:
            raise PortGone(f'port "{self._name}" is gone: {trouble}') from trouble
        if not self._is_among(names):
            raise PortGone(f'port "{self._name}" is gone')
        return now

    def _is_among(self, names: Sequence[str]) -> bool:
        """Whether it may still be there. A port with a number of the system's own is, or is not.

        Of equal ones only their count tells: when one goes the others may be it, so all are gone
        until it is back. A new one may change how the others are told here, and takes nothing.
        """
        if OWN_NUMBER.search(self._name):
            return self._name in names
        count = len(equals_of(self._name, names))
        self._most = max(self._most, count)
        return count == self._most > 0

    def close(self) -> None:
        """Let go of it."""
        with suppress(Exception):  # a system that went away cannot be told
            self._port.close_port()
            self._port.delete()


class SystemInput(_Open):
    """A port to listen to.

    Messages wait in the library's own queue until they are fetched. It could call back for each,
    but then the system's most urgent thread would have to wait for Python, and a JACK server that
    has to wait gives messages out of an earlier round again.
    """

    def __init__(
        self,
        port: Any,  # noqa: ANN401 - without types
        name: str,
        clock: WallClock,
        *,
        names: Callable[[], tuple[str, ...]],
    ) -> None:
        super().__init__(port, name, clock, names=names)
        self._stamps = Stamps()

    def take(self) -> list[Chunk]:
        """All that has come since the last time. Raises PortGone."""
        found = []
        while (event := self._port.get_message()) is not None:
            data, since = event
            at_us = self._stamps.stamp(round(since * 1_000_000), self._clock.now_us())
            found.append(Chunk(at_us, bytes(data)))
        if not found:
            self._look()
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

    def __init__(
        self,
        port: Any,  # noqa: ANN401 - without types
        name: str,
        clock: WallClock,
        *,
        names: Callable[[], tuple[str, ...]],
        longest: int | None = None,
    ) -> None:
        super().__init__(port, name, clock, names=names)
        self.longest = longest
        self._joined_us = clock.now_us() + JOINING_US
        self._left_us = clock.now_us()

    def send(self, data: bytes) -> None:
        """Hand over one message. Raises PortGone, and WorldFailed for one that would be lost."""
        if self.longest is not None and len(data) > self.longest:
            raise WorldFailed(
                f"a message of {len(data):,} bytes is not sent: this MIDI system loses whatever is "
                f"longer than {self.longest:,}; use another port, or a serial line"
            )
        now = self._look()
        if now < self._joined_us:
            self._clock.wait_until(self._joined_us)
            now = self._joined_us
        try:
            self._port.send_message(data)
        except (OSError, ValueError, RuntimeError) as trouble:
            raise PortGone(f'port "{self._name}" does not take messages: {trouble}') from trouble
        self._left_us = now + LEAVING_US

    def close(self) -> None:
        """Let go of it, once what was handed over last has left."""
        self._clock.wait_until(self._left_us)
        super().close()
