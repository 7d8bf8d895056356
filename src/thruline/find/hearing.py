"""What comes to a unit besides programs and controls: clock, active sensing, system exclusive."""

from thruline.path.journey import follow
from thruline.path.network import Network
from thruline.path.outcome import Outcome, Quality
from thruline.rig.unit import Unit, sends
from thruline.rig.whole import Rig

TIMING_CLOCK, ACTIVE_SENSING, DUMP = (0xF8,), (0xFE,), (0xF0,)
_ARRIVED = (Outcome.TAKEN, Outcome.REFUSED, Outcome.TAKING_UNTOLD)


def clocks_at(rig: Rig, network: Network, unit: str) -> int:
    """How many of the clocks that are sent on a board come to a unit that takes them."""
    return sum(
        stop.outcome is Outcome.TAKEN
        for one in rig.units.values()
        if sends(one, "clock")
        for carrier in network.outputs_of(one.id)
        for stop in follow(network, carrier.jack, TIMING_CLOCK).at(unit)
    )


def sensed(rig: Rig, network: Network) -> frozenset[str]:
    """The units that the active sensing of some other unit comes to, or may come to."""
    return frozenset(
        stop.unit
        for one in rig.units.values()
        if sends(one, "active-sensing")
        for carrier in network.outputs_of(one.id)
        for stop in follow(network, carrier.jack, ACTIVE_SENSING).stops
        if stop.outcome.quality is not Quality.BAD and stop.unit != one.id
    )


def wants_dumps(unit: Unit) -> bool:
    """Whether a unit is known to take system exclusive."""
    return unit.chart.listens and bool(unit.chart.receives.system_exclusive or unit.chart.identity)


def dump_comes(rig: Rig, network: Network, unit: str) -> bool:
    """Whether system exclusive from the place of the controller comes to the inputs of a unit."""
    if rig.controller is None:
        return False
    return any(
        stop.outcome in _ARRIVED
        for carrier in network.outputs_of(rig.controller.id)
        for stop in follow(network, carrier.jack, DUMP).at(unit)
    )
