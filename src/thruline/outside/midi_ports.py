"""Real ports through the port library, on every system that it knows.

The library is an extra of its own, for not every Python has it ready-made. It is asked for its own
list of systems, and the first that answers is taken.
"""

import os
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from itertools import count
from pathlib import Path
from types import ModuleType
from typing import Any

from thruline.base.errors import WorldFailed
from thruline.bench.face import PortGone, WallClock
from thruline.bench.port_names import told_apart, without_places
from thruline.outside.open_ports import Life, Link, SystemInput, SystemOutput

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
MOST_WAITING = 1 << 16
"""Messages that may wait to be fetched; 20 s of a line full of clock."""
LONGEST_ON_JACK = 16_000
"""Bytes; a longer message vanishes in JACK's buffer of 16 KiB without an error."""
JACK_TRIES, TRY_AGAIN_US = 3, 50_000
"""A JACK server that is busy may refuse a connection and take the next."""
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
        self._life, self._numbers = Life(), count(1)
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
        is_jack = api == self._rt.API_UNIX_JACK
        for tries_left in reversed(range(JACK_TRIES if is_jack else 1)):
            try:
                with _silenced():
                    return kind(api, name=OUR_NAME, **more)
            except (self._rt.RtMidiError, OSError) as trouble:
                if tries_left:
                    self._clock.wait_until(self._clock.now_us() + TRY_AGAIN_US)
                    continue
                if is_jack:
                    self._life.is_over = True  # the library frees what a dead server had given
                raise WorldFailed(f"the MIDI system does not answer: {trouble}") from trouble
        raise WorldFailed("the MIDI system does not answer")

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
        """The names of a library object's ports, each a different one, in the library's order.

        Raises WorldFailed when the system does not list them.
        """
        return names_told(self._listed(port), has_places=self._api == self._rt.API_WINDOWS_MM)

    def _listed(self, port: Any) -> list[str]:  # noqa: ANN401 - without types
        try:
            found: list[str] = port.get_ports()
        except (self._rt.RtMidiError, OSError, ValueError) as trouble:
            raise WorldFailed(f"the MIDI system does not list its ports: {trouble}") from trouble
        return found

    def open_input(self, name: str) -> SystemInput:
        """Listen to a port. Raises PortGone when it is not there."""
        port = self._new(self._rt.MidiIn, self._api, queue_size_limit=MOST_WAITING)
        port.ignore_types(sysex=False, timing=False, active_sense=False)
        link = self._opened(port, name, as_name="listens", seen_by=self._rt.MidiOut)
        return SystemInput(link, self._clock)

    def open_output(self, name: str) -> SystemOutput:
        """Send to a port. Raises PortGone when it is not there."""
        port = self._new(self._rt.MidiOut, self._api)
        longest = LONGEST_ON_JACK if self._api == self._rt.API_UNIX_JACK else None
        link = self._opened(port, name, as_name="sends", seen_by=self._rt.MidiIn)
        return SystemOutput(link, self._clock, longest=longest)

    def _opened(self, port: Any, name: str, *, as_name: str, seen_by: Any) -> Link:  # noqa: ANN401 - without types
        """A library object opened to a port; `seen_by` is the kind of object that lists ours."""
        try:
            names = self._told(port)
        except WorldFailed:
            port.delete()
            raise
        if name not in names:
            port.delete()
            raise PortGone(f'port "{name}" is not there (any more)')
        if self._api == self._rt.API_UNIX_JACK:
            as_name = f"{as_name} {os.getpid()}.{next(self._numbers)}"
        try:
            port.open_port(names.index(name), name=as_name)
        except (self._rt.RtMidiError, OSError) as trouble:
            port.delete()
            raise WorldFailed(f'port "{name}" cannot be opened: {trouble}') from trouble
        if self._life.is_over:
            self._life = Life()
        return Link(
            port=port,
            name=name,
            names=lambda: self._told(port),
            lives=lambda: self._knows(as_name, seen_by),
            life=self._life,
        )

    def _knows(self, as_name: str, seen_by: Any) -> bool:  # noqa: ANN401 - without types
        """Whether the system has a port of ours that is called so; only JACK may have lost it.

        Its server may have died, or begun anew, and the library goes on telling its last state: so
        that is asked by a new connection, which costs 20 ms. Raises WorldFailed without a server.
        """
        if self._api != self._rt.API_UNIX_JACK:
            return True
        asked = self._new(seen_by, self._api)
        try:
            return any(name.endswith(f":{as_name}") for name in self._listed(asked))
        finally:
            asked.delete()


def names_told(names: Sequence[str], *, has_places: bool) -> tuple[str, ...]:
    """Names of the library as they are told here: each a different one, and as stable as can be.

    `has_places` says that the library puts each one's place in the list behind it.
    """
    return told_apart(without_places(names) if has_places else names)
