"""Which outlet for each unit? Answered for a rig, as an edit of its document."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from thruline.app.frame import Json
from thruline.app.load import Opened
from thruline.app.planned import Change, Tried, tried_json, try_changes
from thruline.base.address import at
from thruline.base.edit import add_to, remove, set_to
from thruline.papers.paper import Section, table_of
from thruline.plan.power import SHARE, PowerCosts, PowerPlan, plan_power
from thruline.plan.power_reasons import (
    Feeding,
    ToBuy,
    feedings,
    power_cost_parts,
    switch_of,
    to_buy,
    wanted_volts,
    words,
)
from thruline.plan.power_wishes import PowerWishes, Untold, power_socket, power_wishes
from thruline.proof.power_leads import CAUTION, volts
from thruline.rig.cable import Cable
from thruline.rig.unit import marked
from thruline.rig.whole import Rig

MEASURE = (
    "Measure each outlet with nothing on it first: voltage, plus and minus, AC or DC. Then plug in "
    "one unit at a time, watching for heat and smell; off at the wall when in doubt."
)
NEVER = (
    "More current than a unit needs is well, more voltage is not. Outlets are never joined to get "
    "more out of them, and the protective earth is never lifted."
)
CAUTIONS = (CAUTION, MEASURE, NEVER)
USED = (
    "Used: the most that is drawn, start-up included, of what the outlet gives; at most "
    f"{SHARE} % should be."
)


@dataclass(frozen=True, kw_only=True)  # without slots: what is tried is kept
class OutletPlan:
    """A power plan of a rig."""

    opened: Opened
    wishes: PowerWishes
    plan: PowerPlan
    feedings: tuple[Feeding, ...]
    to_buy: tuple[ToBuy, ...]
    untold: tuple[Untold, ...]

    @cached_property
    def tried(self) -> Tried:
        """The document with the plan made. Raises CannotUse when it cannot be."""
        return try_changes(self.opened, _changes(self))

    @property
    def is_whole(self) -> bool:
        """Whether everybody is served, and everything could be told."""
        return not self.to_buy and not self.untold

    @property
    def says(self) -> str:
        """The outcome in one sentence."""
        if not self.feedings and self.is_whole:
            return "no unit of this rig wants power from a supply"
        parts = [f"{len(self.feedings)} units are fed"]
        changed = sum(one.changes for one in self.feedings)
        parts.append(f"{changed} of them otherwise than now" if changed else "all as they are now")
        if self.to_buy:
            parts.append(f"{len(self.to_buy)} cannot be fed from what there is")
        if self.untold:
            parts.append(f"{len(self.untold)} cannot be planned for want of a fact")
        proved = "proved: no plan is better" if self.plan.is_best else (
            f"a better plan may exist: this one costs {self.plan.cost}, none is below "
            f"{self.plan.bound}"
        )  # fmt: skip
        return f"{', '.join(parts)}; {proved}"


def plan_rig_power(opened: Opened, *, chains: bool = True, anywhere: bool = False) -> OutletPlan:
    """The best plan for the supplies that the rig has."""
    wishes = power_wishes(opened.rig, anywhere=anywhere)
    plan = plan_power(wishes.loads, wishes.kinds, watts=wishes.watts, chains=chains)
    return OutletPlan(
        opened=opened,
        wishes=wishes,
        plan=plan,
        feedings=tuple(feedings(opened.rig, wishes, plan)),
        to_buy=tuple(to_buy(opened.rig, wishes, plan)),
        untold=wishes.untold,
    )


def _turned(rig: Rig, fed: Sequence[Feeding]) -> Iterator[Change]:
    """Switches of outlets that are to stand otherwise, each once."""
    for outlet, one in {each.outlet: each for each in fed if not each.kind.is_set}.items():
        switch, value = switch_of(rig, outlet), one.kind.switch
        if switch is not None and value is not None:
            address = rig.units[outlet.unit].address.child("settings").child(switch.id)
            yield set_to(address, value), f"so that {outlet} suits {one.unit.name}"


def _changes(found: OutletPlan) -> Iterator[Change]:
    """Switches; leads plugged otherwise, new ones, and other plugs or wiring where needed."""
    fed, leads = found.feedings, found.wishes.leads
    yield from _turned(found.opened.rig, fed)
    yield from _taken_away(found)
    written = {one.unit.id: leads[one.unit.id].cable for one in fed if one.unit.id in leads}
    for one in fed:
        if one.unit.id not in written:
            yield add_to(at("cable"), _new_lead(one)), one.says
    # First what lies in the leads, while their names are as they were; then where they come from.
    for one in (each for each in fed if each.unit.id in written):
        cable = written[one.unit.id]
        if cable.plugs != one.plugs:
            why = f"the plugs that fit {one.outlet} and {one.unit.name}"
            yield set_to(cable.address.child("ends"), "/".join(one.plugs)), why
        if (dict(cable.joins).get("centre") == "outer") != one.crossed:
            wiring = "crossed" if one.crossed else "straight"
            yield set_to(cable.address.child("wiring"), wiring), _wiring_why(one)
    for one in (each for each in fed if each.unit.id in written and each.changes):
        yield set_to(written[one.unit.id].address.child("from"), str(one.outlet)), one.says


def _taken_away(found: OutletPlan) -> Iterator[Change]:
    """Leads to units that nothing serves, and second leads to the same unit."""
    served = {one.unit.id for one in found.feedings}
    reasons = {one.unit.id: one.why for one in found.to_buy}
    left = [
        (lead.cable, reasons.get(name, "nothing that there is serves the unit"))
        for name, lead in found.wishes.leads.items()
        if name not in served
    ]
    seconds = [(lead.cable, f"a second lead to {lead.unit.name}") for lead in found.wishes.seconds]
    for cable, why in sorted((*left, *seconds), key=lambda one: _last_first(one[0])):
        yield remove(cable.address), why


def _wiring_why(one: Feeding) -> str:
    if one.crossed:
        return f"{one.outlet} is {words(one.kind.polarity)}, {one.unit.name} wants the other way"
    return f"{one.outlet} and {one.unit.name} agree on plus and minus"


def _last_first(cable: Cable) -> int:
    """Of two cables between the same sockets the second goes first: the first keeps its name."""
    return -cable.occurrence


def _new_lead(one: Feeding) -> dict[str, str]:
    socket = power_socket(one.unit)
    lead = {
        "from": str(one.outlet),
        "to": f"{one.unit.id}.{socket.id if socket else ''}",
        "ends": "/".join(one.plugs),
    }
    return lead | ({"wiring": "crossed"} if one.crossed else {})


def power_sections(found: OutletPlan) -> Iterator[Section]:
    """The plan unit by unit, outlet loads, what to buy, cautions."""
    rows = [
        (
            one.unit.name,
            wants(one),
            _outlet(found.opened.rig, one),
            gives(one),
            f"{one.percent} %",
            one.says,
        )
        for one in found.feedings
    ]
    yield Section(
        title="An outlet for each unit",
        table=table_of(("unit", "wants", "outlet", "gives", "used", "why"), rows),
        notes=(USED,),
    )
    if found.to_buy:
        yield Section(
            title="To buy",
            table=table_of(
                ("for", "an outlet of", "because"),
                ((one.unit.name, one.outlet, one.why) for one in found.to_buy),
            ),
        )
    if found.untold:
        yield Section(
            title="Cannot be told",
            table=table_of(("unit", "lacks"), ((one.unit.name, one.lacks) for one in found.untold)),
        )
    yield Section(title="Cautions", says=CAUTIONS)


def _outlet(rig: Rig, one: Feeding) -> str:
    """An outlet as whoever stands before it sees it."""
    supply = rig.units[one.outlet.unit]
    return f"{supply.name} {marked(supply, one.outlet.socket)}"


def power_cost_section(found: OutletPlan) -> Section:
    """What the plan is made to cost, part by part."""
    parts = power_cost_parts(found.wishes, found.plan, PowerCosts())
    rows = [(says, str(count), str(each), str(count * each)) for says, count, each in parts]
    rows.append(("in all", "", "", str(found.plan.cost)))
    return Section(title="What it costs", table=table_of(("", "times", "each", "makes"), rows))


def wants(one: Feeding) -> str:
    """What a unit wants, in a few words."""
    current = "AC" if one.load.ac else f"DC {words(one.load.polarity)}"
    start = f", {one.load.starting} at start" if one.load.starting > one.load.running else ""
    return f"{wanted_volts(one.load)} {current}, {one.load.running} mA{start}"


def gives(one: Feeding) -> str:
    """What its outlet gives, and the lead if it is a special one."""
    current = "AC" if one.kind.ac else f"DC {words(one.kind.polarity)}"
    isolated = "" if one.kind.isolated else ", not isolated"
    switch = "" if one.kind.switch is None else f", its switch at {one.kind.switch}"
    lead = ", over a reversing lead" if one.crossed else ""
    return (
        f"{volts(one.kind.millivolts)} {current}, {one.kind.milliamps} mA{isolated}{switch}{lead}"
    )


def power_json(found: OutletPlan) -> Json:
    """The plan for other programs."""
    return {
        "says": found.says,
        "proved": found.plan.is_best,
        "cost": found.plan.cost,
        "bound": found.plan.bound,
        "units": [
            {
                "unit": one.unit.id,
                "name": one.unit.name,
                "outlet": str(one.outlet),
                "was": None if one.was is None else str(one.was),
                "changes": one.changes,
                "ends": "/".join(one.plugs),
                "crossed": one.crossed,
                "used_percent": one.percent,
                "shares_with": list(one.others),
                "why": one.says,
            }
            for one in found.feedings
        ],
        "to_buy": [
            {"unit": one.unit.id, "outlet": one.outlet, "why": one.why} for one in found.to_buy
        ],
        "untold": [{"unit": one.unit.id, "lacks": one.lacks} for one in found.untold],
        "cautions": list(CAUTIONS),
        **tried_json(found.tried),
    }
