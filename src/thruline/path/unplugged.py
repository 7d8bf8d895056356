"""Where a cable is missing: no way leads from one unit to another at all."""

from collections import deque
from collections.abc import Collection, Mapping
from dataclasses import dataclass

from thruline.path.carriers import Hop
from thruline.path.contacts import LinkState
from thruline.path.links import Link
from thruline.path.network import Network
from thruline.path.outcome import Outcome
from thruline.rig.cable import Jack
from thruline.rig.socket import SocketKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Break:
    """Where messages stop, or may stop, on one way from a source to a target.

    `jack` is the output that does not let them on, the far end of the `link` that does not carry
    them, or the socket into which nothing is plugged; None when a unit lacks such a socket
    altogether. `hops` lead to it from the source (nowhere, when no cable leads there). An `outcome`
    that cannot be told makes this something that only may be in the way. `free` are the outputs
    that the messages leave into nothing, and that a lead into the `jack` could start from.
    """

    outcome: Outcome
    unit: str
    jack: Jack | None
    link: Link | None
    hops: tuple[Hop, ...]
    why: str
    free: tuple[Jack, ...] = ()


def unplugged(
    network: Network, source: str, target: str, *, sent: Mapping[Jack, tuple[Hop, ...]]
) -> tuple[Break, ...]:
    """The sockets into which something would have to be plugged for a unit to hear another.

    They are the free inputs that one meets going back from the target; and, where messages come to
    an adapter, its free end. `sent` holds the outputs that the messages of the source leave.
    """
    if not network.outputs_of(source):
        return (_no_socket(source, f"{source} has no MIDI output"),)
    if not network.inputs_of(target):
        return (_no_socket(target, f"{target} has no MIDI input"),)
    free = [jack for jack in sent if jack not in network.leaving]
    found = (*_loose_ends(network, sent), *_free_inputs(network, target, free))
    return found or (_other_source(network, source, target),)


def _loose_ends(network: Network, sent: Mapping[Jack, tuple[Hop, ...]]) -> list[Break]:
    """Adapters that the messages come to, with nothing plugged in behind."""
    return [
        Break(
            outcome=Outcome.NOT_PLUGGED_IN,
            unit=link.stop.unit,
            jack=link.stop,
            link=link,
            hops=(*hops, Hop(link, network.outputs[jack].way)),
            why=link.why,
        )
        for jack, hops in sent.items()
        for link in network.leaving.get(jack, ())
        if link.state is LinkState.LOOSE_END
    ]


def _free_inputs(network: Network, target: str, free: Collection[Jack]) -> list[Break]:
    """Free inputs of the target, and of the units from which its cables come."""
    found = []
    seen: set[str] = {target}
    waiting = deque([network.inputs_of(target)])
    while waiting:
        jacks = waiting.popleft()
        found += [
            _empty(
                jack, tuple(one for one in free if _is_usb(network, one) is _is_usb(network, jack))
            )
            for jack in _wanting(network, jacks)
        ]
        for link in (link for jack in jacks for link in network.inputs[jack]):
            carrier = network.outputs.get(link.start)
            if carrier is not None and link.start.unit not in seen:
                seen.add(link.start.unit)
                sources = carrier.output.sources
                inputs = network.inputs_of(link.start.unit)
                waiting.append(tuple(jack for jack in inputs if jack.socket in sources))
    return found


def _empty(jack: Jack, free: tuple[Jack, ...]) -> Break:
    """An input into which nothing is plugged, and the outputs of its kind that are free."""
    are = "is" if len(free) == 1 else "are"
    could = f"; {', '.join(map(str, free))} {are} free" if free else ""
    return Break(
        outcome=Outcome.NOT_PLUGGED_IN,
        unit=jack.unit,
        jack=jack,
        link=None,
        hops=(),
        why=f"nothing is plugged into {jack}{could}",
        free=free,
    )


def _wanting(network: Network, jacks: tuple[Jack, ...]) -> list[Jack]:
    """The free ones; a USB socket only if there is no other input."""
    usb = {jack for jack in jacks if _is_usb(network, jack)}
    asked = [jack for jack in jacks if jack not in usb] or list(jacks)
    return [jack for jack in asked if not network.inputs[jack]]


def _is_usb(network: Network, jack: Jack) -> bool:
    return network.units[jack.unit].chart.sockets[jack.socket].kind is SocketKind.USB


def _no_socket(unit: str, why: str) -> Break:
    return Break(outcome=Outcome.NO_SOCKET, unit=unit, jack=None, link=None, hops=(), why=why)


def _other_source(network: Network, source: str, target: str) -> Break:
    """Every input on the way back is taken, by units that do not hear the source."""
    jack = network.inputs_of(target)[0]
    givers = dict.fromkeys(str(link.start) for link in network.inputs[jack])
    return Break(
        outcome=Outcome.NOT_PLUGGED_IN,
        unit=target,
        jack=jack,
        link=None,
        hops=(),
        why=f"no cable leads from {source} to {target}; "
        f"what is plugged into {jack} comes from {', '.join(givers)}",
    )
