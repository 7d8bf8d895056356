"""Over which of its outputs the controller addresses each unit, where it chooses one."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from thruline.path.hearing import Hearing, Route
from thruline.path.network import Network
from thruline.rig.controller import Routing as Choice
from thruline.rig.unit import Unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Routing:
    """The outputs of a controller that chooses, and the one chosen for each unit.

    `choice` tells how it chooses. `outputs` are sockets of the controller that send its own
    messages; empty when every message leaves over all of them. `over` gives for a unit one of
    these. `open_to` holds the outputs that lead to a unit of which the document gives none, where
    they are more than one: then the first of them is taken.
    """

    choice: Choice = Choice.ALL
    outputs: tuple[str, ...] = ()
    over: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    open_to: Mapping[str, tuple[str, ...]] = field(default_factory=lambda: MappingProxyType({}))

    @property
    def chooses(self) -> bool:
        """Whether messages differ in the output that they leave by."""
        return bool(self.outputs)

    def takes(self, unit: str, route: Route) -> bool:
        """Whether what the controller sends to `unit` goes along a route from the controller."""
        return self.over.get(unit, route.source.socket) == route.source.socket

    def told_once(self, units: Iterable[Unit]) -> dict[str, str]:
        """What a controller that chooses by unit is told in its set-up: a unit's output for each.

        Of the units that it addresses; empty for any other controller.
        """
        if self.choice is not Choice.BY_UNIT:
            return {}
        return {
            unit.id: self.over[unit.id]
            for unit in units
            if unit.id in self.over and unit.sent_on is not None and unit.chart.listens
        }


EVERYWHERE = Routing()
"""Every message over every output."""


def chooses(controller: Unit) -> bool:
    """Whether a controller, by its chart, sends messages over one output or another."""
    return _choice(controller) is not Choice.ALL


def _choice(controller: Unit) -> Choice:
    abilities = controller.chart.abilities
    return abilities.routing if abilities is not None else Choice.ALL


def read_routing(network: Network, hearing: Hearing, controller: Unit | None) -> Routing:
    """The outputs that the document gives; for the other units those that lead to them.

    An output that is none of the controller's counts as not given. A unit that no output leads to
    is addressed over the first, so that it shows what stops messages on the way.
    """
    if controller is None or not chooses(controller):
        return EVERYWHERE
    outputs = tuple(
        one.jack.socket for one in network.outputs_of(controller.id) if one.sends_own is not False
    )
    if len(outputs) < 2:
        return EVERYWHERE
    over, open_to = {}, {}
    for unit in network.units.values():
        if unit.id == controller.id:
            continue
        if unit.sent_over in outputs:
            over[unit.id] = unit.sent_over
            continue
        leading = _leading(hearing, controller.id, unit.id)
        if len(leading) > 1:
            open_to[unit.id] = leading
        over[unit.id] = leading[0] if leading else outputs[0]
    return Routing(
        choice=_choice(controller),
        outputs=outputs,
        over=MappingProxyType(over),
        open_to=MappingProxyType(open_to),
    )


def _leading(hearing: Hearing, controller: str, unit: str) -> tuple[str, ...]:
    """The controller's outputs from which a unit surely hears; else those from which it may."""
    routes = hearing.routes_between(controller, unit)
    sure = [route for route in routes if route.certain]
    return tuple(dict.fromkeys(route.source.socket for route in sure or routes))
