"""What is plugged where while a check is made: the board as it stands, or a part of it alone."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from types import MappingProxyType

from thruline.find.suspect import Change
from thruline.path.links import read_links
from thruline.path.network import Network
from thruline.rig.cable import Cable, Jack, joined
from thruline.rig.chart import Output, Way
from thruline.rig.socket import Socket, SocketKind, Wiring
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig

TOOL = "computer"
"""The id of the computer’s own interface, where it is part of the scene."""


class Plugged(StrEnum):
    """What is changed on the board for a check."""

    AS_IT_STANDS = "as-it-stands"
    CABLE_SWAPPED = "cable-swapped"
    """One cable is replaced by one that is known to be good."""
    STRAIGHT_IN = "straight-in"
    """The controller goes straight into one unit over a good cable."""
    TOOL_IN = "tool-in"
    """The computer goes straight into one unit over a good cable."""


@dataclass(frozen=True, slots=True)
class Scene:
    """A way of plugging, and the cable or unit that it is about."""

    plugged: Plugged = Plugged.AS_IT_STANDS
    on: str = ""

    @property
    def is_apart(self) -> bool:
        """Whether one lead leads straight into one unit, and nothing else is plugged in."""
        return self.plugged in (Plugged.STRAIGHT_IN, Plugged.TOOL_IN)

    def keeps(self, change: Change, rig: Rig) -> bool:
        """Whether a fault is still on the board, or was taken out of the way with its thing."""
        match self.plugged:
            case Plugged.AS_IT_STANDS:
                return True
            case Plugged.CABLE_SWAPPED:
                return change.on != self.on
            case Plugged.STRAIGHT_IN:
                controller = rig.controller.id if rig.controller else ""
                return change.on in (self.on, controller, "")
            case Plugged.TOOL_IN:
                return change.on == self.on


AS_IT_STANDS = Scene()


def set_up(rig: Rig, scene: Scene, network: Network) -> Rig:
    """The rig as it is plugged for a check. `network` is that of the board as planned."""
    if not scene.is_apart:
        return rig
    source = tool_for(rig) if scene.plugged is Plugged.TOOL_IN else rig.controller
    start, stop = plugged_ends(rig, scene, network)
    if source is None or start is None or stop is None:
        return replace(rig, cables=())
    units = MappingProxyType({source.id: source, scene.on: rig.units[scene.on]})
    apart = replace(rig, units=units, controller=source, cables=())
    return replace(apart, cables=tuple(_good_cable(apart, start, stop)))


def plugged_ends(rig: Rig, scene: Scene, network: Network) -> tuple[Jack | None, Jack | None]:
    """Where the one lead of a scene apart from the board begins and ends."""
    if scene.plugged is Plugged.TOOL_IN:
        start: Jack | None = Jack(TOOL, "midi-out")
    else:
        start = None if rig.controller is None else _output_for(network, rig.controller, scene.on)
    return start, input_of(network, scene.on)


def input_of(network: Network, unit: str) -> Jack | None:
    """The input of a unit that its messages come by; its first where nothing comes."""
    jacks = network.inputs_of(unit)
    fed = (jack for jack in jacks if network.inputs[jack])
    return next(fed, next(iter(jacks), None))


def _output_for(network: Network, source: Unit, unit: str) -> Jack | None:
    """The output of the controller whose line leads to a unit; its first where none does."""
    outputs = [carrier.jack for carrier in network.outputs_of(source.id)]
    seen: set[str] = set()
    here = unit
    while here not in seen:
        seen.add(here)
        links = [one for jack in network.inputs_of(here) for one in network.inputs[jack]]
        if not links:
            break
        if links[0].start in outputs:
            return links[0].start
        here = links[0].start.unit
    return next(iter(outputs), None)


def _good_cable(rig: Rig, start: Jack, stop: Jack) -> Iterator[Cable]:
    """A cable that is known to be good, of the type that these two sockets need."""
    plugs = tuple(
        rig.units[jack.unit].chart.sockets[jack.socket].connector for jack in (start, stop)
    )
    for wiring in ("straight", "type-b", "crossed"):
        joins = joined((plugs[0], plugs[1]), wiring)
        if joins is not None:
            cable = Cable(
                start=start,
                stop=stop,
                plugs=(plugs[0], plugs[1]),
                joins=joins,
                wiring=wiring,
                length=1000,
            )
            if _works(rig, cable):
                yield cable
                return


def _works(rig: Rig, cable: Cable) -> bool:
    return any(link.carries for link in read_links(replace(rig, cables=(cable,))))


def tool_for(rig: Rig) -> Unit | None:
    """The computer’s interface as a unit of its own: one DIN output that sends."""
    if rig.controller is None:
        return None
    out = Socket(id="midi-out", kind=SocketKind.MIDI_OUT, connector="din5", wiring=Wiring.DIN)
    output = Output(
        socket="midi-out",
        ways=(Way.OWN,),
        sources=(),
        latency_us=None,
        by_byte=False,
        blocks=frozenset(),
        buffer_bytes=None,
        skew_ns=None,
        running_status=False,
    )
    chart = replace(
        rig.controller.chart,
        sockets=MappingProxyType({"midi-out": out}),
        outputs=MappingProxyType({"midi-out": output}),
        settings=MappingProxyType({}),
        sends=(),
    )
    return replace(rig.controller, id=TOOL, chart=chart, settings=MappingProxyType({}))
