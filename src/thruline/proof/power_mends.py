"""Moving a power lead to an outlet that suits."""

from collections.abc import Iterator
from dataclasses import replace

from thruline.base.edit import set_to
from thruline.proof.finding import Mend
from thruline.proof.power_leads import (
    Fed,
    Lead,
    beside,
    fed_leads,
    free_outlets,
    leads_by_outlet,
    may_be_reversed,
    suits,
)
from thruline.rig.cable import Jack
from thruline.rig.power import OTHER_POLARITY, Outlet
from thruline.rig.unit import outlet_positions
from thruline.rig.whole import Rig


def move_to_free_outlet(rig: Rig, lead: Lead, *, isolated: bool = False) -> Iterator[Mend]:
    """Plug the lead into the first free outlet that suits the unit, with a straight lead."""
    for supply, outlet in free_outlets(rig):
        if suits(outlet, lead.need) and (outlet.isolated or not isolated):
            start = f"{supply.id}.{outlet.socket}"
            edits = [set_to(lead.cable.address.child("from"), start)]
            if lead.reversed_:
                moved = lead.cable.address.parent.child("cable", f"{start}>{lead.cable.stop}")
                edits.append(set_to(moved.child("wiring"), "straight"))
            yield Mend(f"Move {lead.unit.name} to {supply.name} {outlet.socket}", tuple(edits))
            return


def reversed_alone(rig: Rig, lead: Lead) -> Iterator[Mend]:
    """A polarity-reversing lead to the unit from an isolated outlet that feeds nobody else.

    From where it is plugged in, if that is one; else from the first free one that suits.
    """
    if may_be_reversed(lead.outlet, _beside(rig, lead)):
        says = f"Use a polarity-reversing lead from {lead.outlet_words} to {lead.unit.name}"
        yield Mend(says, (set_to(lead.cable.address.child("wiring"), "crossed"),))
        return
    for supply, outlet in free_outlets(rig):
        if suits(_other_way(outlet), lead.need) and may_be_reversed(outlet, ()):
            start = f"{supply.id}.{outlet.socket}"
            moved = lead.cable.address.parent.child("cable", f"{start}>{lead.cable.stop}")
            yield Mend(
                f"Move {lead.unit.name} to {supply.name} {outlet.socket}, with a "
                "polarity-reversing lead",
                (
                    set_to(lead.cable.address.child("from"), start),
                    set_to(moved.child("wiring"), "crossed"),
                ),
            )
            return


def _other_way(outlet: Outlet) -> Outlet:
    """An outlet as it is at the far end of a lead that swaps plus and minus."""
    return replace(outlet, polarity=OTHER_POLARITY.get(outlet.polarity or ""))


def turn_switch(rig: Rig, lead: Lead) -> Iterator[Mend]:
    """Turn the switch of the outlet to a voltage that suits every unit that it feeds."""
    fed = [one for one in fed_leads(rig) if one.supply.id == lead.supply.id]
    for setting, value, _ in outlet_positions(lead.supply, lead.outlet.socket):
        if all(_bears(one, setting.id, value) for one in fed):
            edit = set_to(lead.supply.address.child("settings").child(setting.id), value)
            says = f"Turn {setting.name} on {lead.supply.name} to {value}, and measure"
            yield Mend(says, (edit,))
            return


def _bears(fed: Fed, setting: str, value: str) -> bool:
    """Whether a switch at a position suits a unit by itself, or is not that of its outlet."""
    positions = outlet_positions(fed.supply, fed.cable.start.socket)
    if all(one.id != setting for one, _, _ in positions):
        return True
    need = fed.unit.chart.power
    there = next(outlet for one, at, outlet in positions if (one.id, at) == (setting, value))
    return need is not None and suits(_other_way(there) if fed.reversed_ else there, need)


def exchange_leads(rig: Rig, lead: Lead) -> Iterator[Mend]:
    """Exchange the outlets of two units, where each then suits the other's unit by itself."""
    by_outlet = leads_by_outlet(rig)
    alone = len(by_outlet[Jack(lead.supply.id, lead.outlet.socket)]) == 1
    for others in by_outlet.values():
        other = others[0]
        if (
            not alone
            or len(others) > 1
            or other.unit.id == lead.unit.id
            or lead.reversed_
            or other.reversed_
            or any(one.reversed_ for place in (lead, other) for one in _beside(rig, place))
        ):
            continue
        if suits(other.outlet, lead.need) and suits(lead.outlet, other.need):
            says = (
                f"Exchange the leads: {lead.unit.name} to {other.outlet.socket}, "
                f"{other.unit.name} to {lead.outlet.socket}"
            )
            yield Mend(
                says,
                (
                    set_to(lead.cable.address.child("from"), str(other.cable.start)),
                    set_to(other.cable.address.child("from"), str(lead.cable.start)),
                ),
            )
            return


def _beside(rig: Rig, lead: Lead) -> list[Fed]:
    return beside(rig, lead.supply, lead.outlet, unit=lead.unit.id)
