"""Moving a power lead to an outlet that suits."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.finding import Mend
from thruline.proof.power_leads import Lead, free_outlets, start_milliamps, suits
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
