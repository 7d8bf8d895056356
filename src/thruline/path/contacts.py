"""Whether the loop of a MIDI current closes: told from contacts alone, not from a table of plugs.

An output lays signals on the contacts of its socket; plugs, cables and passive adapters join
contacts to contacts; an input wants each signal on a certain contact. A link is good when the
source meets the source and the sink meets the sink. Every adapter, mono plug and swapped pair
falls out of this one rule.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from thruline.path.match import Ending, Match
from thruline.path.match_words import (
    both_signals,
    called,
    maybe_as_voltage,
    short_at_receiver,
    short_of_data,
    short_of_sender,
    signal_on_ground,
    voltage_signals,
)
from thruline.path.nets import Joint, nets


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
class Verdict:
    """What a link does, and why, by its contacts."""

    state: LinkState
    why: str


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
    match = Match(
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


def _loop(match: Match) -> Verdict:
    """A current loop from a sender that gives current to a receiver that wants it (CA-033)."""
    given, wanted, isolated = match.given, match.wanted, match.stop.socket.isolated
    short = short_of_sender(match) or short_at_receiver(match)
    if short is not None:
        return Verdict(LinkState.SHORTED, short)
    if match.meets(given.source, wanted.sink) and match.meets(given.sink, wanted.source):
        return Verdict(LinkState.REVERSED, both_signals(match))
    if not (match.meets(given.source, wanted.source) and match.meets(given.sink, wanted.sink)):
        if isolated is not True and match.voltage_arrives:
            return Verdict(LinkState.CANNOT_TELL, maybe_as_voltage(match))
        return Verdict(LinkState.OPEN, both_signals(match))
    grounded = None if isolated else signal_on_ground(match)
    if grounded is not None:
        why = f"{grounded}; that is harmless only if {match.stop.jack} is isolated"
        return Verdict(LinkState.CANNOT_TELL if isolated is None else LinkState.SHORTED, why)
    if isolated is False:
        why = f"{both_signals(match)}; {match.stop.jack} is not isolated"
        return Verdict(LinkState.NOT_ISOLATED, why)
    return Verdict(LinkState.WORKS, both_signals(match))


def _read_as_voltage(match: Match) -> Verdict:
    """A receiver that reads a voltage between its data contact and its shield."""
    short = short_of_data(match) or short_at_receiver(match)
    if short is not None:
        return Verdict(LinkState.SHORTED, short)
    if match.meets(match.given.source, match.wanted.sink):
        return Verdict(LinkState.REVERSED, both_signals(match))
    if not match.voltage_arrives:
        return Verdict(LinkState.OPEN, voltage_signals(match))
    if not match.given.voltage:
        return Verdict(LinkState.CANNOT_TELL, maybe_as_voltage(match))
    isolated = match.stop.socket.isolated is True
    state = LinkState.WORKS if isolated else LinkState.NOT_ISOLATED
    return Verdict(state, voltage_signals(match))


def _voltage_into_loop(match: Match) -> Verdict:
    """A sender without a current source into a receiver that wants a current."""
    no_loop = Verdict(
        LinkState.NO_LOOP,
        f"{match.start.jack} gives a voltage and no current, so nothing flows through "
        f"the receiver of {match.stop.unit}, which wants the source on "
        f"{called(match.wanted.source)}",
    )
    if match.stop.socket.isolated is True:
        return no_loop
    as_voltage = _read_as_voltage(match)
    if as_voltage.state.carries is not False:
        return Verdict(LinkState.CANNOT_TELL, maybe_as_voltage(match))
    return no_loop if match.stop.socket.isolated is None else as_voltage
