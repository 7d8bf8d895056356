"""Ports by their names: picked by a part of it, known again, and held over an unplugging."""

from collections.abc import Callable, Sequence
from typing import TypeAlias, TypeVar

from thruline.base.errors import CannotUse, WorldFailed
from thruline.bench.face import Chunk, CutOff, InPort, OutPort, PortGone, Ports, WallClock
from thruline.bench.port_names import Known, after_going, bare_name, known_again, known_from
from thruline.rig.nearest import nearest

AGAIN_US = 300_000
"""How long to wait before looking whether a port that has gone is back."""


def pick_port(names: Sequence[str], word: str, *, what: str) -> str:
    """The port that a person means by its name or a part of it.

    Raises CannotUse with the ports there are when there is none, or more than one.
    """
    if not word.strip() and names:
        raise CannotUse(f"the name of a port is empty; write one of {_listed(names)}")
    for same in (str.__eq__, _same_bare, _same_low):
        found = [name for name in names if same(name, word)]
        if len(found) == 1:
            return found[0]
    low = word.lower()
    found = [name for name in names if low in name.lower()]
    if len(found) == 1:
        return found[0]
    if found:
        raise CannotUse(f'"{word}" may mean {_listed(found)}; give more of the name')
    if not names:
        raise CannotUse(
            f'there is no {what} "{word}": no {what} is there at all; is it plugged in?'
        )
    meant = nearest(word, names)
    hint = f'; did you mean "{meant}"? There are' if meant else "; there are"
    if len(names) == 1:
        hint = "; there is only"
    raise CannotUse(f'there is no {what} "{word}"{hint} {_listed(names)}')


def refuse_twice(names: Sequence[str]) -> None:
    """Raise CannotUse when a port is named twice: it would be sent, or would give, all twice."""
    for name in names:
        if names.count(name) > 1:
            raise CannotUse(f'port "{name}" is named twice; name each port once')


def _same_bare(name: str, word: str) -> bool:
    return bare_name(name) == bare_name(word)


def _same_low(name: str, word: str) -> bool:
    return bare_name(name).lower() == word.lower()


def _listed(names: Sequence[str]) -> str:
    return ", ".join(f'"{name}"' for name in names)


Change: TypeAlias = str
"""What happened to a port, in words; empty when nothing did."""


class HeldInput:
    """A port to listen to that may be unplugged and plugged in again.

    `take` never raises: it gives what came, and whether the port has just gone or come back.
    """

    __slots__ = ("_clock", "_known", "_port", "_ports", "_retry_us")

    def __init__(self, ports: Ports, name: str, clock: WallClock) -> None:
        """Open it. Raises WorldFailed when that is not possible at the start."""
        self._ports, self._clock = ports, clock
        self._known = known_from(name, ports.inputs())
        self._port: InPort | None = ports.open_input(name)
        self._retry_us = 0

    @property
    def name(self) -> str:
        """The name under which it was first opened."""
        return self._known.name

    @property
    def is_there(self) -> bool:
        """Whether it is plugged in."""
        return self._port is not None

    def take(self) -> tuple[list[Chunk], Change]:
        """What came, and "gone" or "back" when that has just happened."""
        if self._port is None:
            return [], self._look_again()
        try:
            return self._port.take(), ""
        except PortGone as trouble:
            self._port.close()
            self._port = None
            self._known = _gone(self._known, self._ports.inputs, trouble=trouble)
            self._retry_us = self._clock.now_us() + AGAIN_US
            return [], "gone"

    def _look_again(self) -> Change:
        if self._clock.now_us() < self._retry_us:
            return ""
        self._retry_us = self._clock.now_us() + AGAIN_US
        self._port = _reopened(self._ports.inputs, self._ports.open_input, self._known)
        return "back" if self._port is not None else ""

    def close(self) -> None:
        """Let go of it."""
        if self._port is not None:
            self._port.close()
            self._port = None


class HeldOutput:
    """A port to send to that may be unplugged: it is looked for again before each message."""

    __slots__ = ("_known", "_port", "_ports")

    def __init__(self, ports: Ports, name: str) -> None:
        """Open it. Raises WorldFailed when that is not possible at the start."""
        self._ports = ports
        self._known = known_from(name, ports.outputs())
        self._port: OutPort | None = ports.open_output(name)

    @property
    def name(self) -> str:
        """The name under which it was first opened."""
        return self._known.name

    @property
    def is_there(self) -> bool:
        """Whether it was plugged in when something was last sent."""
        return self._port is not None

    @property
    def longest(self) -> int | None:
        """Bytes of the longest message that it carries; None where there is no such bound."""
        return self._port.longest if self._port is not None else None

    def send(self, data: bytes) -> None:
        """Hand over one message. Raises PortGone, and works again once the port is back."""
        self._with(lambda port: port.send(data))

    def look(self) -> None:
        """See that it is there; one that is back, or may have gone unseen, is opened anew.

        Raises PortGone when it is not there.
        """
        try:
            self._with(lambda port: port.look())
        except CutOff:
            self._with(lambda port: port.look())

    def land(self) -> None:
        """Wait until what was handed over has left. Raises PortGone when the port went."""
        if self._port is None:
            raise PortGone(_gone_says(self._known))
        self._with(lambda port: port.land())

    def _with(self, deed: Callable[[OutPort], None]) -> None:
        """Do something with the port, opened anew where it is back. Raises PortGone."""
        if self._port is None:
            self._port = _reopened(self._ports.outputs, self._ports.open_output, self._known)
        if self._port is None:
            raise PortGone(_gone_says(self._known))
        try:
            deed(self._port)
        except PortGone as trouble:
            self._let_go()
            self._known = _gone(self._known, self._ports.outputs, trouble=trouble)
            raise type(trouble)(f"{trouble.says}; plug it in again and repeat this") from trouble

    def close(self) -> None:
        """Let go of it."""
        self._let_go()

    def _let_go(self) -> None:
        if self._port is not None:
            self._port.close()
            self._port = None


P = TypeVar("P")


def _gone(known: Known, names: Callable[[], tuple[str, ...]], *, trouble: PortGone) -> Known:
    """What is remembered of a port that has just gone."""
    if isinstance(trouble, CutOff):
        return known
    try:
        return after_going(known, names())
    except WorldFailed:
        return known


def _gone_says(known: Known) -> str:
    says = f'port "{known.name}" is gone; plug it in again and repeat this'
    if known.of == 1:
        return says
    bare = bare_name(known.name)
    return f'{says}. Ports "{bare}" are told apart only while all {known.of} are plugged in'


def _reopened(
    names: Callable[[], tuple[str, ...]], open_port: Callable[[str], P], known: Known
) -> P | None:
    """A port that had gone, opened again under the name it has now."""
    try:
        name = known_again(known, names())
        return open_port(name) if name is not None else None
    except WorldFailed:
        return None
