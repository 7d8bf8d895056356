"""Moving a power lead to an outlet that suits."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.finding import Mend
from thruline.proof.power_leads import (
    Lead,
    free_outlets,
    leads_by_outlet,
    start_milliamps,
    suits,
)
from thruline.rig.cable import Jack
from thruline.rig.unit import outlet_positions
from thruline.rig.whole import Rig


def move_to_free_outlet(rig: Rig, lead: Lead, *, isolated: bool = False) -> Iterator[Mend]:
    """Plug the lead into the first free outlet that suits the unit, with a straight lead."""
    milliamps = start_milliamps(lead.need) or 0
    for supply, outlet in free_outlets(rig):
        if suits(outlet, lead.need, milliamps=milliamps) and (outlet.isolated or not isolated):
            start = f"{supply.id}.{outlet.socket}"
            edits = [set_to(lead.cable.address.child("from"), start)]
            if lead.reversed_:
                moved = lead.cable.address.parent.child("cable", f"{start}>{lead.cable.stop}")
                edits.append(set_to(moved.child("wiring"), "straight"))
            yield Mend(f"Move {lead.unit.name} to {supply.name} {outlet.socket}", tuple(edits))
            return


def turn_switch(lead: Lead) -> Iterator[Mend]:
    """Turn the switch of the outlet to a voltage that the unit bears."""
    milliamps = start_milliamps(lead.need) or 0
    for setting, value, outlet in outlet_positions(lead.supply, lead.outlet.socket):
        if suits(outlet, lead.need, milliamps=milliamps):
            edit = set_to(lead.supply.address.child("settings").child(setting.id), value)
            says = f"Turn {setting.name} on {lead.supply.name} to {value}, and measure"
            yield Mend(says, (edit,))
            return


def exchange_leads(rig: Rig, lead: Lead) -> Iterator[Mend]:
    """Exchange the outlets of two units, where each then suits the other's unit by itself."""
    mine = start_milliamps(lead.need) or 0
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
        ):
            continue
        theirs = start_milliamps(other.need) or 0
        if suits(other.outlet, lead.need, milliamps=mine) and suits(
            lead.outlet, other.need, milliamps=theirs
        ):
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
