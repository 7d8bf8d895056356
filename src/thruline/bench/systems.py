"""Several systems of ports as one: MIDI ports, serial lines, a wire in memory."""

from collections.abc import Callable, Iterator, Mapping

from thruline.base.errors import WorldFailed
from thruline.bench.face import InPort, OutPort, PortGone, Ports, WallClock

AGAIN_US = 3_000_000
"""How long until a system that did not answer is tried again."""


class Systems:
    """Systems by what the names of their ports begin with here ("" for nothing).

    One that is missing does not keep the others from working: `troubles` says what it lacks, and it
    is tried again from time to time.
    """

    says = "all ports"

    def __init__(self, makers: Mapping[str, Callable[[], Ports]], clock: WallClock) -> None:
        self._makers = dict(makers)
        self._clock = clock
        self._made: dict[str, Ports] = {}
        self._troubles: dict[str, str] = {}
        self._again_us: dict[str, int] = {}

    @property
    def troubles(self) -> tuple[str, ...]:
        """What is missing, in sentences that say what to do."""
        return tuple(self._troubles.values())

    def inputs(self) -> tuple[str, ...]:
        """The names of all ports that can be listened to."""
        return tuple(self._names(lambda ports: ports.inputs()))

    def outputs(self) -> tuple[str, ...]:
        """The names of all ports that can be sent to."""
        return tuple(self._names(lambda ports: ports.outputs()))

    def open_input(self, name: str) -> InPort:
        """Listen to a port. Raises PortGone when it is not there, WorldFailed as its system."""
        ports, its_name = self._of(name)
        return ports.open_input(its_name)

    def open_output(self, name: str) -> OutPort:
        """Send to a port. Raises PortGone when it is not there, WorldFailed as its system."""
        ports, its_name = self._of(name)
        return ports.open_output(its_name)

    def _of(self, name: str) -> tuple[Ports, str]:
        """The system that a port belongs to, and what it is called there."""
        begins = next((one for one in self._makers if one and name.startswith(one)), "")
        ports = self._system(begins)
        if ports is None:
            raise PortGone(f'port "{name}" cannot be reached: {self._troubles.get(begins, "")}')
        return ports, name.removeprefix(begins)

    def _names(self, names_of: Callable[[Ports], tuple[str, ...]]) -> Iterator[str]:
        for begins in self._makers:
            ports = self._system(begins)
            if ports is None:
                continue
            try:
                names = names_of(ports)
            except WorldFailed as trouble:
                self._lose(begins, trouble)
                continue
            for name in names:
                yield f"{begins}{name}"

    def _system(self, begins: str) -> Ports | None:
        """A system, made when it is first wanted; None while it does not answer."""
        if begins in self._made:
            return self._made[begins]
        now = self._clock.now_us()
        if begins not in self._makers or now < self._again_us.get(begins, now):
            return None
        try:
            self._made[begins] = self._makers[begins]()
        except WorldFailed as trouble:
            self._lose(begins, trouble)
            return None
        self._troubles.pop(begins, None)
        return self._made[begins]

    def _lose(self, begins: str, trouble: WorldFailed) -> None:
        self._made.pop(begins, None)
        self._troubles[begins] = trouble.says
        self._again_us[begins] = self._clock.now_us() + AGAIN_US
