"""Which outlet feeds which unit, for the power layer of the Board page."""

from collections.abc import Iterator, Sequence

from thruline.app.frame import Json
from thruline.proof.power_leads import (
    BareLead,
    Lead,
    bare_leads,
    leads_by_outlet,
    power_leads,
    power_sockets,
    start_milliamps,
    volts,
)
from thruline.rig.cable import Jack
from thruline.rig.power import Need, Outlet
from thruline.rig.socket import SocketKind
from thruline.rig.whole import Rig

SIGNS = {"centre-negative": "centre \N{MINUS SIGN}", "centre-positive": "centre +"}
"""Polarities where there is little room."""


def feeds_json(rig: Rig) -> Json:
    """Every power lead with both its ends in words, and the units that have none."""
    sharing = leads_by_outlet(rig)
    leads = list(power_leads(rig))
    bare = list(bare_leads(rig))
    return {
        "leads": [
            *(_lead(one, sharing[Jack(one.supply.id, one.outlet.socket)]) for one in leads),
            *(_bare(one) for one in bare),
        ],
        "unfed": list(_unfed(rig)),
    }


def _lead(lead: Lead, sharing: Sequence[Lead]) -> Json:
    highest = most_drawn(sharing)
    need, given = lead.need, lead.outlet
    polarity = "AC" if given.ac else SIGNS.get(given.polarity or "", "DC ?")
    drawn = "? mA" if need.milliamps is None else f"{need.milliamps} mA"
    return {
        "address": str(lead.cable.address),
        "outlet": lead.outlet_words,
        "unit": lead.unit.id,
        "name": lead.unit.name,
        "gives": gives_words(given) + (", over a reversing lead" if lead.reversed_ else ""),
        "wants": wants_words(need),
        "label": [given.socket, f"{volts(given.millivolts)} {polarity}", drawn],
        "used": None if highest is None else f"{-(-highest * 100 // given.milliamps)} %",
        "shares": [one.unit.name for one in sharing if one.cable != lead.cable],
    }


def _bare(lead: BareLead) -> Json:
    lacks = lead.lacks("milliamps")
    return {
        "address": str(lead.cable.address),
        "outlet": lead.outlet_words,
        "unit": lead.unit.id,
        "name": lead.unit.name,
        "gives": f"lacks {lacks}" if lead.knows_need else "",
        "wants": "" if lead.knows_need else f"lacks {lacks}",
        "label": [lead.cable.start.socket, "not told"],
        "used": None,
        "shares": [],
    }


def most_drawn(leads: Sequence[Lead]) -> int | None:
    """The highest current of all units on one outlet together, mA; None when one is not told.

    They may all start at once, so it is the larger of the sums while running and at start-up.
    """
    running = [lead.need.milliamps for lead in leads]
    starting = [start_milliamps(lead.need) for lead in leads]
    if any(one is None for one in running):
        return None
    return max(sum(one or 0 for one in running), sum(one or 0 for one in starting))


def gives_words(outlet: Outlet) -> str:
    """What an outlet gives: `9 V DC centre minus, 500 mA, isolated`."""
    current = "AC" if outlet.ac else f"DC {polarity_words(outlet.polarity)}"
    isolated = "isolated" if outlet.isolated else "not isolated"
    return f"{volts(outlet.millivolts)} {current}, {outlet.milliamps} mA, {isolated}"


def wants_words(need: Need) -> str:
    """What a unit wants: `9 V to 12 V DC centre minus, 130 mA, 200 mA at start`."""
    most = need.most_millivolts
    span = volts(need.millivolts) + (f" to {volts(most)}" if most > need.millivolts else "")
    current = "AC" if need.ac else f"DC {polarity_words(need.polarity)}"
    drawn = "current not told" if need.milliamps is None else f"{need.milliamps} mA"
    start = start_milliamps(need)
    at_start = f", {start} mA at start" if start and start > (need.milliamps or 0) else ""
    return f"{span} {current}, {drawn}{at_start}"


def polarity_words(polarity: str | None) -> str:
    """A polarity as people say it."""
    return (polarity or "polarity not told").replace("-", " ")


def _unfed(rig: Rig) -> Iterator[Json]:
    """Units with a socket for a supply that no lead feeds, nor one from a computer."""
    feeding = (SocketKind.POWER_IN, SocketKind.USB)
    fed = {
        jack.unit
        for cable in rig.cables
        for jack in (cable.start, cable.stop)
        if rig.units[jack.unit].chart.sockets[jack.socket].kind in feeding
    }
    for unit in rig.units.values():
        if unit.id not in fed and power_sockets(unit):
            need = unit.chart.power
            wants = wants_words(need) if need else "what it wants is not told"
            yield {"unit": unit.id, "name": unit.name, "wants": wants}
