"""Why each unit hangs where it does, and what to buy where nothing serves it, in sentences."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from thruline.plan.power import SHARE, Kind, Load, Place, PowerCosts, PowerPlan, is_reversed
from thruline.plan.power_wishes import PowerWishes, outlets_of
from thruline.proof.power_leads import volts
from thruline.rig.cable import Jack
from thruline.rig.chart import Governs, Setting
from thruline.rig.unit import Unit, setting_for
from thruline.rig.whole import Rig

LEFT = "; the lead that it has is taken away"
ROUND_MILLIAMPS = 50
"""Ratings of outlets to buy are rounded up to this."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Feeding:
    """One unit of a plan: its outlet, the lead to it, who shares the outlet, and why.

    `percent` is how much of the outlet is used at the highest, by all that hang on it.
    """

    unit: Unit
    load: Load
    outlet: Jack
    kind: Kind
    others: tuple[str, ...]
    crossed: bool
    percent: int
    was: Jack | None
    says: str

    @property
    def changes(self) -> bool:
        """Whether a lead has to be plugged otherwise, or another one made."""
        return self.was != self.outlet

    @property
    def plugs(self) -> tuple[str, str]:
        """The plugs of the lead: at the outlet and at the unit."""
        return self.kind.connector, self.load.connector


@dataclass(frozen=True, slots=True, kw_only=True)
class ToBuy:
    """An outlet that would serve a unit for which there is none, and why the others do not."""

    unit: Unit
    outlet: str
    why: str


def feedings(rig: Rig, wishes: PowerWishes, plan: PowerPlan) -> Iterator[Feeding]:
    """Every unit that is served, in the order of the document."""
    given = outlets_of(wishes, plan)
    loads = {one.id: one for one in wishes.loads}
    places = {name: place for place in plan.places for name in place.units}
    for load in (one for one in wishes.loads if one.id in places):
        place = places[load.id]
        kind = wishes.kinds[place.kind]
        lead = wishes.leads.get(load.id)
        highest = max(
            sum(loads[one].running for one in place.units),
            sum(loads[one].starting for one in place.units),
        )
        yield Feeding(
            unit=rig.units[load.id],
            load=load,
            outlet=given[load.id],
            kind=kind,
            others=tuple(one for one in place.units if one != load.id),
            crossed=is_reversed(load, kind),
            percent=-(-highest * 100 // kind.milliamps),
            was=lead.cable.start if lead else None,
            says="; ".join(_says(rig, wishes, load, given=given, place=place)),
        )


def _says(
    rig: Rig, wishes: PowerWishes, load: Load, *, given: Mapping[str, Jack], place: Place
) -> Iterator[str]:
    lead = wishes.leads.get(load.id)
    if lead is None:
        yield "had no lead"
    elif lead.cable.start == given[load.id]:
        yield "stays where it is"
    else:
        yield _why_moved(rig, wishes, load, given=given, was=lead.cable.start)
    others = [rig.units[one].name for one in place.units if one != load.id]
    if others:
        yield f"shares the outlet with {' and '.join(others)}; none of them is digital"
    kind = wishes.kinds[place.kind]
    if not kind.is_set:
        switch = switch_of(rig, given[load.id])
        yield f"first turn {switch.name if switch else ''} to {kind.switch}, and measure"
    if is_reversed(load, kind):
        yield "its lead swaps plus and minus: mark it, and use it for nothing else"


def switch_of(rig: Rig, outlet: Jack) -> Setting | None:
    """The switch that chooses the voltage of an outlet, if it has one."""
    return setting_for(rig.units[outlet.unit], Governs.OUTLET_VOLTAGE, outlet.socket)


def _why_moved(
    rig: Rig, wishes: PowerWishes, load: Load, *, given: Mapping[str, Jack], was: Jack
) -> str:
    if load.now is None:
        return f"{was} is not planned here"
    trouble = next(misfits(load, wishes.kinds[load.now]), None)
    if trouble:
        return f"{was} does not suit it: {trouble}"
    heirs = [rig.units[name].name for name, jack in given.items() if jack == was]
    if heirs:
        return f"{was} is for {' and '.join(heirs)}"
    return f"{was} can stay free: the whole is better so"


def misfits(load: Load, kind: Kind) -> Iterator[str]:
    """What is wrong with feeding a unit from an outlet of this kind, the worst first."""
    most = max(load.running, load.starting)
    if load.ac != kind.ac:
        yield f"it gives {'AC' if kind.ac else 'DC'}, wanted is {'AC' if load.ac else 'DC'}"
    elif not load.millivolts <= kind.millivolts <= load.most_millivolts:
        yield f"it gives {volts(kind.millivolts)}, wanted is {wanted_volts(load)}"
    if most > kind.milliamps:
        yield f"it gives {kind.milliamps} mA, wanted are {most} mA"
    elif most * 100 > kind.milliamps * SHARE:
        yield f"{most} of its {kind.milliamps} mA would be used, more than {SHARE} %"
    if not kind.isolated and not load.may_share:
        yield "it is not isolated"
    if is_reversed(load, kind):
        yield f"it is {words(kind.polarity)}, wanted is {words(load.polarity)}"
    if load.zone != kind.zone:
        yield "it stands elsewhere"


def to_buy(rig: Rig, wishes: PowerWishes, plan: PowerPlan) -> Iterator[ToBuy]:
    """For every unit that is not served the smallest outlet that would do."""
    for load in (one for one in wishes.loads if one.id in plan.unplaced):
        most = max(load.running, load.starting)
        rating = -(-most * 100 // SHARE)
        rating = -(-rating // ROUND_MILLIAMPS) * ROUND_MILLIAMPS
        current = "AC" if load.ac else f"DC {words(load.polarity)}"
        isolated = "" if load.may_share else "isolated, "
        yield ToBuy(
            unit=rig.units[load.id],
            outlet=f"{isolated}{wanted_volts(load)} {current}, at least {rating} mA",
            why=_why_none(load, wishes) + (LEFT if load.id in wishes.leads else ""),
        )


def _why_none(load: Load, wishes: PowerWishes) -> str:
    near = [kind for kind in wishes.kinds if kind.zone == load.zone]
    if not near:
        return "there is no supply where it stands"
    troubles = [next(misfits(load, kind), "") for kind in near]
    if all(troubles):
        return f"no outlet suits it: {'; '.join(dict.fromkeys(troubles))}"
    return "all outlets that suit it are wanted by other units"


def wanted_volts(load: Load) -> str:
    """The voltages a unit bears: `9 V`, or `9 V to 18 V`."""
    if load.most_millivolts == load.millivolts:
        return volts(load.millivolts)
    return f"{volts(load.millivolts)} to {volts(load.most_millivolts)}"


def words(polarity: str | None) -> str:
    """A polarity as people say it."""
    return (polarity or "of unknown polarity").replace("-", " ")


def power_cost_parts(
    wishes: PowerWishes, plan: PowerPlan, costs: PowerCosts
) -> tuple[tuple[str, int, int], ...]:
    """What a plan costs: in words, how often, and how much each time; it adds up to its cost."""
    loads = {one.id: one for one in wishes.loads}
    pairs = [
        (loads[name], place.kind, wishes.kinds[place.kind])
        for place in plan.places
        for name in place.units
    ]
    unfed = [loads[name] for name in plan.unplaced]
    moved = sum(load.now not in (None, number) for load, number, _ in pairs)
    plugs = sum(load.connector != kind.connector for load, _, kind in pairs)
    parts = (
        ("a unit that cannot be fed", len(unfed), costs.unplaced),
        ("a milliamp that it wants", sum(max(one.running, one.starting) for one in unfed), 1),
        ("a supply in use", len({kind.supply for _, _, kind in pairs}), costs.supply),
        ("a unit that shares an outlet", _sharing(plan), costs.chained),
        ("a unit on a return that outlets share", _not_isolated(pairs), costs.shared_return),
        (f"more than {SHARE} % used", sum(_over(wishes, plan, loads)), costs.over),
        ("a unit plugged in otherwise", moved, costs.moved),
        ("a switch to turn", sum(not kind.is_set for _, _, kind in pairs), costs.switched),
        (
            "a reversing lead",
            sum(is_reversed(one, kind) for one, _, kind in pairs),
            costs.reversing,
        ),
        ("a lead with two different plugs", plugs, costs.other_plug),
    )
    return tuple(part for part in parts if part[1])


def _sharing(plan: PowerPlan) -> int:
    return sum(len(place.units) for place in plan.places if len(place.units) > 1)


def _not_isolated(pairs: Sequence[tuple[Load, int, Kind]]) -> int:
    return sum(not kind.isolated for _, _, kind in pairs)


def _over(wishes: PowerWishes, plan: PowerPlan, loads: Mapping[str, Load]) -> Iterator[bool]:
    """For every outlet in use, and every supply, whether it is used more than it should be."""
    drawn: dict[str, int] = {}  # microwatts
    for place in plan.places:
        kind, those = wishes.kinds[place.kind], [loads[name] for name in place.units]
        running = sum(one.running for one in those)
        highest = max(running, sum(one.starting for one in those))
        yield highest * 100 > kind.milliamps * SHARE
        drawn[kind.supply] = drawn.get(kind.supply, 0) + running * kind.millivolts
    for supply, microwatts in drawn.items():
        has = wishes.watts[supply]
        yield has is not None and microwatts * 100 > has * 1000 * SHARE
