"""What meets what on a link, in sentences that name the contacts."""

from thruline.path.match import Match
from thruline.path.nets import culprit
from thruline.rig.socket import Signals


def short_of_sender(match: Match) -> str | None:
    """Two signals of a current loop that are joined on the way, if there are such."""
    source, sink, shield = match.given.source, match.given.sink, match.given.shield
    return (
        _short(match, source, sink) or _short(match, source, shield) or _short(match, sink, shield)
    )


def short_of_data(match: Match) -> str | None:
    """The same, where only the sink and the shield are read: the source may lie on the shield."""
    source, sink, shield = match.given.source, match.given.sink, match.given.shield
    return _short(match, source, sink) or _short(match, sink, shield)


def _short(match: Match, first: str | None, second: str | None) -> str | None:
    """The sentence for two contacts of the sender that are joined, naming what joins them."""
    if first is None or second is None or match.at_start(first) != match.at_start(second):
        return None
    by = culprit(match.joints, (0, first), (0, second))
    return (
        f"{_carried(match, first)} and is joined with {called(second)}, "
        f"{_role(match.given, second)}{f', by {by}' if by else ''}"
    )


def short_at_receiver(match: Match) -> str | None:
    """A signal contact of the receiver that meets the shield, or its other signal contact."""
    given, wanted, unit = match.given, match.wanted, match.stop.unit
    last = match.last
    if wanted.source is not None and match.at_stop(wanted.source) == match.at_stop(wanted.sink):
        by = culprit(match.joints, (last, wanted.source), (last, wanted.sink))
        return (
            f"{called(wanted.source)} and {called(wanted.sink)} at {unit} are joined"
            f"{f' by {by}' if by else ''}, where {unit} expects the two signals apart"
        )
    for contact in (wanted.source, wanted.sink):
        if contact is not None and match.meets(given.shield, contact):
            return (
                f"{called(given.shield)} at {match.start.unit} is the shield and meets "
                f"{called(contact)}, where {unit} expects {_role(wanted, contact)}"
            )
    return None


def signal_on_ground(match: Match) -> str | None:
    """A signal that lies on the ground of the receiver: it matters if that is not isolated."""
    shield = match.wanted.shield
    for contact in (match.given.source, match.given.sink):
        if match.meets(contact, shield):
            return (
                f"{_carried(match, contact)} and meets {called(shield)}, "
                f"the shield of {match.stop.unit}"
            )
    return None


def both_signals(match: Match) -> str:
    """Where the source and the sink of the sender come out, and what is left over."""
    told = [_fate(match, c) for c in (match.given.source, match.given.sink) if c is not None]
    met = {match.at_start(c) for c in (match.given.source, match.given.sink, match.given.shield)}
    told += [
        f"{called(contact)} at {match.stop.unit} expects {_role(match.wanted, contact)} "
        "and meets nothing"
        for contact in (match.wanted.source, match.wanted.sink)
        if contact is not None and match.at_stop(contact) not in met
    ]
    return "; ".join(told)


def voltage_signals(match: Match) -> str:
    """Where the data of the sender and its ground come out."""
    given = match.given
    told = [_fate(match, contact) for contact in (given.sink, given.shield) if contact is not None]
    if given.shield is None:
        told.append(f"{match.start.jack} has no shield for {match.stop.unit} to read against")
    return "; ".join(told)


def maybe_as_voltage(match: Match) -> str:
    """Where the data comes out, and why nobody can tell what the receiver makes of it."""
    return (
        f"{_fate(match, match.given.sink)}; {match.stop.jack} can at best read it as a voltage "
        "against the joined grounds, and whether it does depends on the unit"
    )


def _fate(match: Match, contact: str) -> str:
    """What one contact of the sender carries, and where it comes out."""
    net = match.at_start(contact)
    unit, last = match.stop.unit, match.last
    met = [c for c in match.stop.socket.contacts if match.nets.of((last, c)) == net]
    if not met:
        return f"{_carried(match, contact)} and meets nothing at {unit}"
    ends = [f"{called(c)}, where {unit} expects {_role(match.wanted, c)}" for c in met]
    return f"{_carried(match, contact)} and meets {' and '.join(ends)}"


def _carried(match: Match, contact: str | None) -> str:
    return f"{called(contact)} at {match.start.unit} carries {_role(match.given, contact)}"


def called(contact: str | None) -> str:
    """A contact as people say it: `contact 5`, `ring`."""
    return f"contact {contact}" if contact is not None and contact.isdigit() else str(contact)


def _role(signals: Signals, contact: str | None) -> str:
    """What lies on a contact."""
    if contact == signals.source:
        return "the source"
    if contact == signals.sink:
        return "the data" if signals.voltage else "the sink"
    return "the shield" if contact == signals.shield else "nothing"
