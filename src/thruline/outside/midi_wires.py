"""Ports in memory: what is sent to one end comes in at the other, for tests and demonstrations.

What they do not imitate: the speed of a line (bytes arrive at the moment they are sent), bytes
that are lost or garbled, a system that cuts or gathers what it hands on, and a port's running
number that changes at each plugging. `unplug` and `plug_in` do what a hand does.
"""

from collections import deque

from thruline.bench.face import Chunk, PortGone, WallClock


class Wire:
    """One wire: an output and an input of the same name."""

    def __init__(self, name: str, clock: WallClock) -> None:
        self.name = name
        self.clock = clock
        self.there = True
        self.waiting: deque[Chunk] = deque()

    def check(self) -> None:
        """Raise PortGone when it is pulled out."""
        if not self.there:
            raise PortGone(f'port "{self.name}" is gone')


class _End:
    """One end of a wire."""

    def __init__(self, wire: Wire) -> None:
        wire.check()
        self._wire = wire

    @property
    def name(self) -> str:
        """What it is called."""
        return self._wire.name

    def close(self) -> None:
        """Let go of it; the wire stays."""


class WireInput(_End):
    """The end to listen to."""

    def take(self) -> list[Chunk]:
        """All that has come since the last time. Raises PortGone."""
        self._wire.check()
        came = []
        while self._wire.waiting:
            came.append(self._wire.waiting.popleft())
        return came


class WireOutput(_End):
    """The end to send to; it takes messages of any length."""

    longest: int | None = None

    def send(self, data: bytes) -> None:
        """Hand over one message. Raises PortGone."""
        self._wire.check()
        self._wire.waiting.append(Chunk(self._wire.clock.now_us(), data))

    def look(self) -> None:
        """See that it is plugged in. Raises PortGone."""
        self._wire.check()

    land = look


class Wires:
    """A system of ports that consists of wires."""

    says = "wires in memory"

    def __init__(self, *names: str, clock: WallClock) -> None:
        self._wires = {name: Wire(name, clock) for name in names}

    def inputs(self) -> tuple[str, ...]:
        """The names of the wires that are plugged in."""
        return tuple(wire.name for wire in self._wires.values() if wire.there)

    outputs = inputs

    def open_input(self, name: str) -> WireInput:
        """Listen to a wire. Raises PortGone when it is not there."""
        return WireInput(self._known(name))

    def open_output(self, name: str) -> WireOutput:
        """Send into a wire. Raises PortGone when it is not there."""
        return WireOutput(self._known(name))

    def _known(self, name: str) -> Wire:
        if name not in self._wires:
            raise PortGone(f'there is no such wire: "{name}"')
        return self._wires[name]

    def unplug(self, name: str) -> None:
        """Pull a wire out."""
        self._wires[name].there = False

    def plug_in(self, name: str) -> None:
        """Plug it in again; what was under way is lost."""
        self._wires[name].waiting.clear()
        self._wires[name].there = True
