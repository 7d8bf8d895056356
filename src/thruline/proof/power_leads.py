"""Which outlet feeds which unit, over which lead."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from thruline.rig.cable import Cable, Jack
from thruline.rig.power import Need, Outlet
from thruline.rig.socket import Socket, SocketKind
from thruline.rig.unit import Unit, outlet_of
from thruline.rig.whole import Rig

MOST_SHARE = 80
"""Percent of an outlet's rating that its units may draw, as the trade has it."""
CAUTION = (
    "Never open a mains supply. Before a lead goes in, measure its voltage and its polarity. Local "
    "codes and licensed practice come first."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lead:
    """A power lead from an outlet to a unit. `reversed_` when it swaps centre and outer contact."""

    supply: Unit
    outlet: Outlet
    unit: Unit
    need: Need
    cable: Cable
    reversed_: bool

    @property
    def outlet_words(self) -> str:
        """The outlet as people call it."""
        return f"{self.supply.name} {self.outlet.socket}"


@dataclass(frozen=True, slots=True, kw_only=True)
class BareLead:
    """A power lead of which a chart does not say what the outlet gives, or what the unit wants."""

    supply: Unit
    unit: Unit
    cable: Cable
    knows_need: bool

    @property
    def outlet_words(self) -> str:
        """The outlet as people call it."""
        return f"{self.supply.name} {self.cable.start.socket}"

    def lacks(self, fact: str) -> str:
        """The missing fact, and the chart that it should stand in."""
        if self.knows_need:
            return f"[[outlet]] {self.cable.start.socket} in chart {self.supply.chart.id}"
        return f"{fact} of [power] in chart {self.unit.chart.id}"


def power_leads(rig: Rig) -> Iterator[Lead]:
    """Every lead from an outlet to a unit that says what it wants, in the order of the cables."""
    for cable, supply, unit in _fed(rig):
        outlet = outlet_of(supply, cable.start.socket)
        if outlet is not None and unit.chart.power is not None:
            yield Lead(
                supply=supply,
                outlet=outlet,
                unit=unit,
                need=unit.chart.power,
                cable=cable,
                reversed_=_is_reversed(cable),
            )


def _is_reversed(cable: Cable) -> bool:
    return dict(cable.joins).get("centre") == "outer"


def bare_leads(rig: Rig) -> Iterator[BareLead]:
    """Every lead into a power socket of which one end is not told, in the order of the cables."""
    for cable, supply, unit in _fed(rig):
        gives = supply.chart.sockets[cable.start.socket].kind is SocketKind.POWER_OUT
        outlet, need = supply.chart.outlets.get(cable.start.socket), unit.chart.power
        if gives and (outlet is None or need is None):
            yield BareLead(supply=supply, unit=unit, cable=cable, knows_need=need is not None)


def _fed(rig: Rig) -> Iterator[tuple[Cable, Unit, Unit]]:
    """Every cable into a power socket, what it comes from, and what it goes to."""
    for cable in rig.cables:
        unit = rig.units[cable.stop.unit]
        if unit.chart.sockets[cable.stop.socket].kind is SocketKind.POWER_IN:
            yield cable, rig.units[cable.start.unit], unit


def power_sockets(unit: Unit) -> tuple[Socket, ...]:
    """The sockets over which a supply feeds the unit; mains is not among them."""
    return tuple(
        socket
        for socket in unit.chart.sockets.values()
        if socket.kind is SocketKind.POWER_IN and socket.connector != "mains"
    )


def leads_by_outlet(rig: Rig) -> Mapping[Jack, list[Lead]]:
    """The leads of every outlet that has one."""
    found: dict[Jack, list[Lead]] = {}
    for lead in power_leads(rig):
        found.setdefault(Jack(lead.supply.id, lead.outlet.socket), []).append(lead)
    return found


def on_one_return(lead: Lead, leads: Sequence[Lead]) -> list[Lead]:
    """Other units on the same outlet, or on outlets of the supply that are not isolated either."""
    return [
        other
        for other in leads
        if other.unit.id != lead.unit.id
        and other.supply.id == lead.supply.id
        and (
            other.outlet.socket == lead.outlet.socket
            or not (other.outlet.isolated or lead.outlet.isolated)
        )
    ]


class Fed(NamedTuple):
    """A lead from a supply to a unit, whatever their charts say. `reversed_` as of a `Lead`."""

    supply: Unit
    outlet: Outlet | None
    unit: Unit
    cable: Cable
    reversed_: bool


def fed_leads(rig: Rig) -> Iterator[Fed]:
    """Every lead from an outlet, in the order of the cables."""
    for cable, supply, unit in _fed(rig):
        if supply.chart.sockets[cable.start.socket].kind is SocketKind.POWER_OUT:
            outlet = outlet_of(supply, cable.start.socket)
            yield Fed(supply, outlet, unit, cable, _is_reversed(cable))


def beside(rig: Rig, supply: Unit, outlet: Outlet, *, unit: str = "") -> list[Fed]:
    """Leads to other units than this one whose return is, or may be, that of an outlet."""
    return [
        one
        for one in fed_leads(rig)
        if one.supply.id == supply.id
        and one.unit.id != unit
        and (
            one.cable.start.socket == outlet.socket
            or not (outlet.isolated or (one.outlet is not None and one.outlet.isolated))
        )
    ]


def may_be_reversed(outlet: Outlet, others: Collection[object]) -> bool:
    """Whether a lead that swaps plus and minus may go from an outlet that feeds these others.

    Only from an isolated one that feeds nobody else. On a return that is shared, plus and minus
    meet through the grounds of audio and MIDI leads, and that shorts the supply.
    """
    return outlet.isolated and not others


def free_outlets(rig: Rig) -> Iterator[tuple[Unit, Outlet]]:
    """Outlets with nothing plugged in, in the order of the document.

    Not those on whose return a lead swaps plus and minus: nothing may come beside it.
    """
    used = {cable.start for cable in rig.cables}
    for supply in rig.units.values():
        for socket in supply.chart.outlets:
            outlet = outlet_of(supply, socket)
            if outlet is None or Jack(supply.id, socket) in used:
                continue
            if not any(one.reversed_ for one in beside(rig, supply, outlet)):
                yield supply, outlet


def suits(outlet: Outlet, need: Need) -> bool:
    """Whether an outlet by itself could surely feed this need over a straight lead.

    Never where a chart does not say the polarity of either, or what the unit draws.
    """
    milliamps = start_milliamps(need)
    return (
        outlet.ac == need.ac
        and need.millivolts <= outlet.millivolts <= need.most_millivolts
        and (need.ac or (need.polarity is not None and outlet.polarity == need.polarity))
        and milliamps is not None
        and milliamps * 100 <= outlet.milliamps * MOST_SHARE
    )


def start_milliamps(need: Need) -> int | None:
    """The current at start-up; None when the chart gives no current at all.

    Where it gives no factor this is the running current.
    """
    if need.milliamps is None:
        return None
    return need.milliamps * (need.start_percent or 100) // 100


def volts(millivolts: int) -> str:
    """Millivolts as people read them."""
    return f"{millivolts / 1000:g} V"
