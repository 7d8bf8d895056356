"""The two ends of a link, held against each other contact by contact."""

from dataclasses import dataclass

from thruline.path.nets import Joint, Nets, Point
from thruline.rig.cable import Jack
from thruline.rig.socket import SIGNALS, Signals, Socket, SocketKind


@dataclass(frozen=True, slots=True)
class Ending:
    """One end of a link: which socket, and what it is."""

    jack: Jack
    socket: Socket

    @property
    def unit(self) -> str:
        """The unit, as a person calls it."""
        return self.jack.unit

    @property
    def is_usb(self) -> bool:
        """Whether MIDI is data on a USB cable here."""
        return self.socket.kind is SocketKind.USB or self.socket.connector.startswith("usb")

    @property
    def signals(self) -> Signals | None:
        """How a MIDI signal lies on its contacts; None for a socket that has none."""
        return SIGNALS[self.socket.wiring] if self.socket.wiring else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """Both ends of a link: what the one lays on its contacts, what the other wants on its own.

    `joints` lead from the start to the stop, `nets` are what they make.
    """

    start: Ending
    stop: Ending
    given: Signals
    wanted: Signals
    joints: tuple[Joint, ...]
    nets: Nets

    def at_start(self, contact: str | None) -> Point | None:
        """The net of a contact of the output."""
        return None if contact is None else self.nets.of((0, contact))

    def at_stop(self, contact: str | None) -> Point | None:
        """The net of a contact of the input."""
        return None if contact is None else self.nets.of((self.last, contact))

    def meets(self, given: str | None, wanted: str | None) -> bool:
        """Whether a contact of the output is joined with a contact of the input."""
        net = self.at_start(given)
        return net is not None and net == self.at_stop(wanted)

    @property
    def last(self) -> int:
        """The place of the stop socket on the way."""
        return len(self.joints)

    @property
    def voltage_arrives(self) -> bool:
        """Whether data and ground both get where a receiver of voltages reads them."""
        given, wanted = self.given, self.wanted
        return self.meets(given.sink, wanted.sink) and self.meets(given.shield, wanted.shield)
