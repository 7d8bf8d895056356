"""What may be wrong with the supply of each unit: nothing, too little, the wrong kind, noise."""

from collections.abc import Iterator
from types import MappingProxyType

from thruline.find.kinds import Kind
from thruline.find.meant import Meant
from thruline.find.rig_edits import cable_key
from thruline.find.suspect import Suspect
from thruline.find.unit_suspects import off
from thruline.proof.power_leads import MOST_SHARE, Lead, leads_by_outlet, power_leads
from thruline.rig.cable import Jack
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig

TIGHT = 3.0
"""How much likelier a supply sags when its outlet is loaded beyond what the trade allows."""


def power_suspects(meant: Meant) -> Iterator[Suspect]:
    """For every unit with a power lead; for other units only that they may be without power."""
    rig = meant.rig
    leads = {lead.unit.id: lead for lead in power_leads(rig)}
    for unit in rig.units.values():
        if not (unit.chart.listens or unit.chart.outputs or unit.id in leads):
            continue
        if unit.chart.outlets and unit.id not in leads:
            continue
        yield _dark(meant, unit, Kind.NO_POWER, meter="nothing")
        lead = leads.get(unit.id)
        if lead is not None:
            yield from _fed_wrongly(meant, lead)
    yield from _noise(rig, leads)


def _dark(meant: Meant, unit: Unit, kind: Kind, *, meter: str) -> Suspect:
    return Suspect(
        kind=kind,
        on=unit.id,
        what=unit.name,
        changes=(off(meant, unit),),
        shows=MappingProxyType({f"power {unit.id}": "dark", f"supply {unit.id}": meter}),
    )


def _fed_wrongly(meant: Meant, lead: Lead) -> Iterator[Suspect]:
    yield _dark(meant, lead.unit, Kind.POWER_REVERSED, meter="wrong")
    outlets = lead.supply.chart.outlets.values()
    if any(one.choices or one.millivolts != lead.outlet.millivolts for one in outlets):
        yield _dark(meant, lead.unit, Kind.POWER_VOLTAGE, meter="wrong")
    if any(one.ac != lead.outlet.ac for one in outlets):
        yield _dark(meant, lead.unit, Kind.POWER_AC_DC, meter="wrong")
    sagging = Suspect(
        kind=Kind.POWER_SAGS,
        on=lead.unit.id,
        what=lead.unit.name,
        changes=(off(meant, lead.unit),),
        shows=MappingProxyType({f"load {lead.unit.id}": "dips"}),
        odds=TIGHT if _is_tight(meant.rig, lead) else 1.0,
    )
    yield sagging


def _is_tight(rig: Rig, lead: Lead) -> bool:
    """Whether the outlet is loaded beyond the share of its rating that the trade allows."""
    shared = leads_by_outlet(rig)[Jack(lead.supply.id, lead.outlet.socket)]
    drawn = sum(one.need.milliamps or 0 for one in shared)
    return drawn * 100 > lead.outlet.milliamps * MOST_SHARE


def _noise(rig: Rig, leads: dict[str, Lead]) -> Iterator[Suspect]:
    """What only the ear tells: whine, hum, noise from a computer."""
    shared = leads_by_outlet(rig)
    for jack, those in shared.items():
        for lead in those:
            if lead.need.digital and (len(those) > 1 or not lead.outlet.isolated):
                yield _heard(Kind.SHARED_OUTLET_WHINE, lead.unit, str(jack), look="whine")
    if rig.audio is not None and len(leads) > 1:
        for name in rig.audio.units:
            unit = rig.units.get(name)
            if unit is not None and name in leads:
                yield _heard(Kind.GROUND_LOOP, unit, name, look="hum")
    for cable in rig.cables:
        if any(plug.startswith("usb") for plug in cable.plugs):
            unit = rig.units[cable.stop.unit]
            yield _heard(Kind.USB_NOISE, unit, cable_key(cable), look="usb-noise")


def _heard(kind: Kind, unit: Unit, on: str, *, look: str) -> Suspect:
    shows = {"noise": look, f"{look} {unit.id}": "goes"}
    return Suspect(kind=kind, on=on, what=unit.name, shows=MappingProxyType(shows))
