"""A MIDI line at a serial port: plain bytes at 31 250 baud."""

import errno
from contextlib import suppress
from threading import Lock
from types import ModuleType
from typing import Any

from thruline.base.errors import WorldFailed
from thruline.base.measures import BYTE_US
from thruline.bench.face import Chunk, PortGone, WallClock

BAUD = 31_250
NOT_INSTALLED = (
    "serial lines need a library that is not installed here; it comes with\n"
    "    pip install 'thruline[ports]'"
)


def _library() -> ModuleType:
    """The library for serial ports. Raises WorldFailed when it is not installed."""
    try:
        import serial  # type: ignore[import-not-found, import-untyped, unused-ignore]  # noqa: PLC0415 - an extra
    except ImportError:
        raise WorldFailed(NOT_INSTALLED) from None
    found: ModuleType = serial
    return found


class SerialLines:
    """Serial ports by their names in the system, each used for one line at a time."""

    says = "serial lines"

    def __init__(self, clock: WallClock) -> None:
        self._clock = clock
        self._serial = _library()

    def inputs(self) -> tuple[str, ...]:
        """The serial ports that the system lists; others can be opened by their name as well.

        Raises WorldFailed when the system does not list them.
        """
        from serial.tools import list_ports  # type: ignore[import-untyped, unused-ignore]  # noqa: PLC0415 - an extra

        try:
            return tuple(sorted(one.device for one in list_ports.comports()))
        except (OSError, TypeError, ValueError) as trouble:
            raise WorldFailed(f"the serial ports cannot be listed: {trouble}") from trouble

    outputs = inputs

    def open_input(self, name: str) -> "SerialLine":
        """Listen to a line. Raises WorldFailed when it cannot be opened."""
        return self._open(name)

    def open_output(self, name: str) -> "SerialLine":
        """Send to a line. Raises WorldFailed when it cannot be opened."""
        return self._open(name)

    def _open(self, name: str) -> "SerialLine":
        try:
            port = self._serial.Serial(name, BAUD, timeout=0, write_timeout=2)
        except (OSError, ValueError) as trouble:
            says = f"serial line {name} cannot be opened: {_why(trouble)}"
            raise WorldFailed(says) from trouble
        return SerialLine(port, name, self._clock)


def _why(trouble: Exception) -> str:
    """What the library says of a line that cannot be opened, in words."""
    known = {
        errno.ENOENT: "it is not there",
        errno.EACCES: "you may not use it (on Linux, users of the group dialout may)",
        errno.EBUSY: "something else uses it",
    }
    if "configure" in str(trouble):
        return f"it is no serial port, or cannot go at {BAUD} baud"
    return known.get(getattr(trouble, "errno", None) or 0, str(trouble))


SLICE = 1024
"""Bytes handed over at a time: a third of a second on the line. The next is handed over when the
line carries the last, so that no buffer of the system fills: how long one stays full before it
takes more, nobody tells, and a long message must not be given up halfway."""


class SerialLine:
    """One line, open; it takes messages of any length."""

    longest: int | None = None

    def __init__(self, port: Any, name: str, clock: WallClock) -> None:  # noqa: ANN401 - without types
        self._port, self._name, self._clock = port, name, clock
        self._last_us = self._left_us = 0
        self._lock = Lock()

    @property
    def name(self) -> str:
        """What the system calls it."""
        return self._name

    def take(self) -> list[Chunk]:
        """All that has come since the last time. Raises PortGone."""
        try:
            data = self._port.read(max(1, self._port.in_waiting))
        except (OSError, TypeError) as trouble:
            raise PortGone(f"serial line {self._name} is gone: {trouble}") from trouble
        found = _spread(data, after_us=self._last_us, now_us=self._clock.now_us())
        self._last_us = found[-1].at_us if found else self._last_us
        return found

    def send(self, data: bytes) -> None:
        """Hand over one message, a long one at the pace of the line. Raises PortGone.

        Another thread's message, such as a panic, waits for its end: within an exclusive it would
        cut it off, and the rest would be read as something else.
        """
        with self._lock:
            for start in range(0, len(data), SLICE):
                self._hand_over(data[start : start + SLICE])

    def _hand_over(self, part: bytes) -> None:
        self._clock.wait_until(self._left_us - SLICE * BYTE_US)
        try:
            self._port.write(part)
        except (OSError, TypeError) as trouble:
            raise PortGone(
                f"serial line {self._name} is gone, or takes nothing: {trouble}"
            ) from trouble
        self._left_us = max(self._left_us, self._clock.now_us()) + BYTE_US * len(part)

    def look(self) -> None:
        """See that the system still has it. Raises PortGone."""
        try:
            self._port.in_waiting  # noqa: B018 - it asks the system
        except (OSError, TypeError) as trouble:
            raise PortGone(f"serial line {self._name} is gone: {trouble}") from trouble

    def land(self) -> None:
        """Wait until the line has carried what was handed over. Raises PortGone when it went."""
        self._clock.wait_until(self._left_us)
        self.look()

    def close(self) -> None:
        """Let go of it."""
        with suppress(OSError):
            self._port.close()


def _spread(data: bytes, *, after_us: int, now_us: int) -> list[Chunk]:
    """Bytes that were read in one go came one after the other, at the speed of the line."""
    count = len(data)
    return [
        Chunk(max(after_us, now_us - (count - 1 - place) * BYTE_US), data[place : place + 1])
        for place in range(count)
    ]
