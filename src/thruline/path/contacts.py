"""Does the current find its way round? Told from contacts alone, not from a table of plugs.

An output lays signals on the contacts of its socket; plugs, cables and passive adapters join
contacts to contacts; an input wants each signal on a certain contact. A link is good when the
source meets the source and the sink meets the sink. Every adapter, mono plug and swapped pair
falls out of this one rule.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from thruline.path.nets import Joint, Nets, Point, culprit, nets
from thruline.rig.cable import Jack
from thruline.rig.socket import SIGNALS, Signals, Socket, SocketKind


class LinkState(StrEnum):
    """What a link does; `says` gives the sentence for each."""

    WORKS = "works"
    NOT_ISOLATED = "not-isolated"
    REVERSED = "reversed"
    OPEN = "open"
    SHORTED = "shorted"
    NO_LOOP = "no-loop"
    WRONG_WAY = "wrong-way"
    WRONG_KIND = "wrong-kind"
    UNFIT = "unfit"
    LOOSE_END = "loose-end"
    CANNOT_TELL = "cannot-tell"

    @property
    def says(self) -> str:
        """One sentence for people."""
        return _SAYS[self]

    @property
    def carries(self) -> bool | None:
        """Whether messages get through; None when that cannot be told."""
        if self is LinkState.CANNOT_TELL:
            return None
        return self in (LinkState.WORKS, LinkState.NOT_ISOLATED)


_SAYS: Mapping[LinkState, str] = MappingProxyType(
    {
        LinkState.WORKS: "The current finds its way round: messages get through.",
        LinkState.NOT_ISOLATED: "Messages get through, but the receiver is not isolated, "
        "so the grounds of both units are joined and may hum.",
        LinkState.REVERSED: "The two wires of the pair are swapped: silent, without damage.",
        LinkState.OPEN: "A wire is missing: silent.",
        LinkState.SHORTED: "A signal meets the shield or the other signal: silent, "
        "and the sender drives a short.",
        LinkState.NO_LOOP: "The sender gives a voltage only and the isolated receiver wants a "
        "current: silent.",
        LinkState.WRONG_WAY: "Two outputs or two inputs are joined: nothing can be heard.",
        LinkState.WRONG_KIND: "A MIDI socket is joined with a socket for something else.",
        LinkState.UNFIT: "A plug does not go into its socket.",
        LinkState.LOOSE_END: "It ends at an adapter with nothing plugged in behind it.",
        LinkState.CANNOT_TELL: "Whether messages get through depends on the units; "
        "their charts do not settle it.",
    }
)


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


@dataclass(frozen=True, slots=True)
class Verdict:
    """What a link does, and why, by its contacts."""

    state: LinkState
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Match:
    """Both ends of a link with the nets between them. `last` is the place of the stop socket."""

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
        return None if contact is None else self.nets.of((len(self.joints), contact))

    def meets(self, given: str | None, wanted: str | None) -> bool:
        """Whether a contact of the output is joined with a contact of the input."""
        net = self.at_start(given)
        return net is not None and net == self.at_stop(wanted)


def judge(start: Ending, stop: Ending, joints: tuple[Joint, ...]) -> Verdict:
    """What a link from an output to an input does.

    `joints` lead from the contacts of the start socket to those of the stop socket; both sockets
    are for MIDI, one giving and one taking, or both USB. Branches of a Y lead are not looked at.
    """
    if start.is_usb or stop.is_usb:
        return _usb(start, stop, joints)
    given, wanted = start.signals, stop.signals
    if given is None or wanted is None:
        bare = start if given is None else stop
        why = f"the chart does not say how MIDI lies on the contacts of {bare.jack}"
        return Verdict(LinkState.CANNOT_TELL, why)
    match = _Match(
        start=start,
        stop=stop,
        given=given,
        wanted=wanted,
        joints=joints,
        nets=nets(tuple(joint.pairs for joint in joints)),
    )
    if wanted.voltage:
        return _read_as_voltage(match)
    if given.voltage:
        return _voltage_into_loop(match)
    return _loop(match)


def _usb(start: Ending, stop: Ending, joints: tuple[Joint, ...]) -> Verdict:
    """USB carries MIDI as data, so that only USB meets it."""
    if start.is_usb is not stop.is_usb:
        usb, other = (start, stop) if start.is_usb else (stop, start)
        why = f"{usb.jack} is USB, which is no MIDI current loop as {other.jack} has it"
        return Verdict(LinkState.WRONG_KIND, why)
    joined = nets(tuple(joint.pairs for joint in joints))
    if joined.of((0, "usb")) == joined.of((len(joints), "usb")):
        return Verdict(LinkState.WORKS, f"USB joins {start.unit} and {stop.unit}")
    return Verdict(LinkState.OPEN, f"the USB of {start.unit} does not reach {stop.unit}")


def _loop(match: _Match) -> Verdict:
    """A current loop from a sender that gives current to a receiver that wants it (CA-033)."""
    given, wanted, isolated = match.given, match.wanted, match.stop.socket.isolated
    short = _short_of_sender(match) or _short_at_receiver(match)
    if short is not None:
        return Verdict(LinkState.SHORTED, short)
    if match.meets(given.source, wanted.sink) and match.meets(given.sink, wanted.source):
        return Verdict(LinkState.REVERSED, _both_signals(match))
    if not (match.meets(given.source, wanted.source) and match.meets(given.sink, wanted.sink)):
        if isolated is not True and _voltage_arrives(match):
            return Verdict(LinkState.CANNOT_TELL, _maybe_by_voltage(match))
        return Verdict(LinkState.OPEN, _both_signals(match))
    if isolated is not True and _signal_on_ground(match):
        why = f"{_signal_on_ground(match)}; that is harmless only if {match.stop.jack} is isolated"
        return Verdict(LinkState.CANNOT_TELL if isolated is None else LinkState.SHORTED, why)
    if isolated is False:
        why = f"{_both_signals(match)}; {match.stop.jack} is not isolated"
        return Verdict(LinkState.NOT_ISOLATED, why)
    return Verdict(LinkState.WORKS, _both_signals(match))


def _read_as_voltage(match: _Match) -> Verdict:
    """A receiver that reads a voltage between its data contact and its shield."""
    if match.meets(match.given.source, match.wanted.sink):
        return Verdict(LinkState.REVERSED, _both_signals(match))
    short = _short(match, match.given.sink, match.given.shield) or _short_at_receiver(match)
    if short is not None:
        return Verdict(LinkState.SHORTED, short)
    if not _voltage_arrives(match):
        return Verdict(LinkState.OPEN, _voltage_signals(match))
    if not match.given.voltage:
        return Verdict(LinkState.CANNOT_TELL, _maybe_by_voltage(match))
    isolated = match.stop.socket.isolated is True
    state = LinkState.WORKS if isolated else LinkState.NOT_ISOLATED
    return Verdict(state, _voltage_signals(match))


def _voltage_into_loop(match: _Match) -> Verdict:
    """A sender without a current source into a receiver that wants a current."""
    no_loop = Verdict(
        LinkState.NO_LOOP,
        f"{match.start.jack} gives a voltage and no current, so nothing flows through "
        f"the receiver of {match.stop.unit}, which wants the source on "
        f"{_contact(match.wanted.source)}",
    )
    if match.stop.socket.isolated is True:
        return no_loop
    as_voltage = _read_as_voltage(match)
    if as_voltage.state.carries is not False:
        return Verdict(LinkState.CANNOT_TELL, _maybe_by_voltage(match))
    return no_loop if match.stop.socket.isolated is None else as_voltage


def _voltage_arrives(match: _Match) -> bool:
    """Whether data and ground both get where a receiver of voltages reads them."""
    given, wanted = match.given, match.wanted
    return match.meets(given.sink, wanted.sink) and match.meets(given.shield, wanted.shield)


def _short_of_sender(match: _Match) -> str | None:
    """Two signals of the sender that are joined on the way, if there are such."""
    given = match.given
    return (
        _short(match, given.source, given.sink)
        or _short(match, given.source, given.shield)
        or _short(match, given.sink, given.shield)
    )


def _short(match: _Match, first: str | None, second: str | None) -> str | None:
    """The sentence for two contacts of the sender that are joined, naming what joins them."""
    if first is None or second is None or match.at_start(first) != match.at_start(second):
        return None
    by = culprit(match.joints, (0, first), (0, second))
    return (
        f"{_carried(match, first)} and is joined with {_contact(second)}, "
        f"{_role(match.given, second)}{f', by {by}' if by else ''}"
    )


def _short_at_receiver(match: _Match) -> str | None:
    """A signal contact of the receiver that meets the shield, or its other signal contact."""
    given, wanted, unit = match.given, match.wanted, match.stop.unit
    last = len(match.joints)
    if wanted.source is not None and match.at_stop(wanted.source) == match.at_stop(wanted.sink):
        by = culprit(match.joints, (last, wanted.source), (last, wanted.sink))
        return (
            f"{_contact(wanted.source)} and {_contact(wanted.sink)} at {unit} are joined"
            f"{f' by {by}' if by else ''}, where {unit} expects the two signals apart"
        )
    for contact in (wanted.source, wanted.sink):
        if contact is not None and match.meets(given.shield, contact):
            return (
                f"{_contact(given.shield)} at {match.start.unit} is the shield and meets "
                f"{_contact(contact)}, where {unit} expects {_role(wanted, contact)}"
            )
    return None


def _signal_on_ground(match: _Match) -> str | None:
    """A signal that lies on the ground of the receiver: it matters if that is not isolated."""
    shield = match.wanted.shield
    for contact in (match.given.source, match.given.sink):
        if match.meets(contact, shield):
            return (
                f"{_carried(match, contact)} and meets {_contact(shield)}, "
                f"the shield of {match.stop.unit}"
            )
    return None


def _both_signals(match: _Match) -> str:
    """Where the source and the sink of the sender come out, and what is left over."""
    told = [_fate(match, c) for c in (match.given.source, match.given.sink) if c is not None]
    met = {match.at_start(c) for c in (match.given.source, match.given.sink, match.given.shield)}
    told += [
        f"{_contact(contact)} at {match.stop.unit} expects {_role(match.wanted, contact)} "
        "and meets nothing"
        for contact in (match.wanted.source, match.wanted.sink)
        if contact is not None and match.at_stop(contact) not in met
    ]
    return "; ".join(told)


def _voltage_signals(match: _Match) -> str:
    """Where the data of the sender and its ground come out."""
    given = match.given
    told = [_fate(match, contact) for contact in (given.sink, given.shield) if contact is not None]
    if given.shield is None:
        told.append(f"{match.start.jack} has no shield for {match.stop.unit} to read against")
    return "; ".join(told)


def _maybe_by_voltage(match: _Match) -> str:
    return (
        f"{_fate(match, match.given.sink)}; {match.stop.jack} can at best read it as a voltage "
        "against the joined grounds, and whether it does depends on the unit"
    )


def _fate(match: _Match, contact: str) -> str:
    """What one contact of the sender carries, and where it comes out."""
    net = match.at_start(contact)
    unit, last = match.stop.unit, len(match.joints)
    met = [c for c in match.stop.socket.contacts if match.nets.of((last, c)) == net]
    if not met:
        return f"{_carried(match, contact)} and meets nothing at {unit}"
    ends = [f"{_contact(c)}, where {unit} expects {_role(match.wanted, c)}" for c in met]
    return f"{_carried(match, contact)} and meets {' and '.join(ends)}"


def _carried(match: _Match, contact: str | None) -> str:
    return f"{_contact(contact)} at {match.start.unit} carries {_role(match.given, contact)}"


def _contact(contact: str | None) -> str:
    """A contact as people say it: `contact 5`, `ring`."""
    return f"contact {contact}" if contact is not None and contact.isdigit() else str(contact)


def _role(signals: Signals, contact: str | None) -> str:
    """What lies on a contact."""
    if contact == signals.source:
        return "the source"
    if contact == signals.sink:
        return "the data" if signals.voltage else "the sink"
    return "the shield" if contact == signals.shield else "nothing"
