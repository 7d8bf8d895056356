"""What the bench asks of the world: ports, a wall clock, and somewhere to write a log."""

from typing import NamedTuple, Protocol

from thruline.base.errors import WorldFailed


class PortGone(WorldFailed):
    """A port that was open is not there any more."""


class CutOff(PortGone):
    """What was open leads nowhere any more; if a port of its name is there, it is this one.

    It went with all of its name, or with its system; or nobody looked at it for so long that it may
    have gone and come back.
    """


class Chunk(NamedTuple):
    """Bytes that came together, and when their last one was there (us of the wall clock)."""

    at_us: int
    data: bytes


class InPort(Protocol):
    """A port to listen to."""

    @property
    def name(self) -> str:
        """What the system calls it."""
        ...

    def take(self) -> list[Chunk]:
        """All that has come since the last time, at once. Raises PortGone."""
        ...

    def close(self) -> None:
        """Let go of it."""
        ...


class OutPort(Protocol):
    """A port to send to."""

    @property
    def name(self) -> str:
        """What the system calls it."""
        ...

    @property
    def longest(self) -> int | None:
        """Bytes of the longest message that it carries; None where there is no such bound."""
        ...

    def send(self, data: bytes) -> None:
        """Hand over one whole message. Raises PortGone as far as that is seen: see `land`."""
        ...

    def look(self) -> None:
        """See by asking, which is cheap, that it is there and takes part. Raises PortGone."""
        ...

    def land(self) -> None:
        """Wait until what was handed over has surely left, and see that it is there even then.

        Raises PortGone when it is not: what was handed over since the last look may be lost.
        """
        ...

    def close(self) -> None:
        """Let go of it."""
        ...


class Ports(Protocol):
    """A system of ports: what there is now, and opening one of them by its full name.

    All of these raise WorldFailed when the system of ports is not there.
    """

    @property
    def says(self) -> str:
        """The system in words."""
        ...

    def inputs(self) -> tuple[str, ...]:
        """The names of all ports that can be listened to."""
        ...

    def outputs(self) -> tuple[str, ...]:
        """The names of all ports that can be sent to."""
        ...

    def open_input(self, name: str) -> InPort:
        """Listen to a port. Raises PortGone when it is not there."""
        ...

    def open_output(self, name: str) -> OutPort:
        """Send to a port. Raises PortGone when it is not there."""
        ...


class WallClock(Protocol):
    """Time as it passes, in microseconds since some moment."""

    def now_us(self) -> int:
        """The present."""
        ...

    def wait_until(self, moment_us: int) -> None:
        """Come back at that moment, or at once when it is past."""
        ...


class Log(Protocol):
    """A text that grows row by row; what was written stays whatever happens after."""

    def add(self, rows: list[str]) -> None:
        """Write rows. Raises WorldFailed when the disk does not take them."""
        ...

    def close(self) -> None:
        """Nothing more comes."""
        ...
