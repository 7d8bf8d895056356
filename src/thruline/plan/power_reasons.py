"""Why each unit hangs where it does, and what to buy where nothing serves it, in sentences."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from thruline.plan.power import SHARE, Eater, Kind, Place, PowerPlan, is_reversed
from thruline.plan.power_wishes import PowerWishes, outlets_of
from thruline.proof.power_leads import volts
from thruline.rig.cable import Jack
from thruline.rig.unit import Unit
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
    eater: Eater
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
        return self.kind.connector, self.eater.connector


@dataclass(frozen=True, slots=True, kw_only=True)
class ToBuy:
    """An outlet that would serve a unit for which there is none, and why the others do not."""

    unit: Unit
    outlet: str
    why: str


def feedings(rig: Rig, wishes: PowerWishes, plan: PowerPlan) -> Iterator[Feeding]:
    """Every unit that is served, in the order of the document."""
    given = outlets_of(wishes, plan)
    eaters = {one.id: one for one in wishes.eaters}
    places = {name: place for place in plan.places for name in place.units}
    for eater in (one for one in wishes.eaters if one.id in places):
        place = places[eater.id]
        kind = wishes.kinds[place.kind]
        lead = wishes.leads.get(eater.id)
        highest = max(
            sum(eaters[one].running for one in place.units),
            sum(eaters[one].starting for one in place.units),
        )
        yield Feeding(
            unit=rig.units[eater.id],
            eater=eater,
            outlet=given[eater.id],
            kind=kind,
            others=tuple(one for one in place.units if one != eater.id),
            crossed=is_reversed(eater, kind),
            percent=-(-highest * 100 // kind.milliamps),
            was=lead.cable.start if lead else None,
            says="; ".join(_says(rig, wishes, eater, given=given, place=place)),
        )


def _says(
    rig: Rig, wishes: PowerWishes, eater: Eater, *, given: Mapping[str, Jack], place: Place
) -> Iterator[str]:
    lead = wishes.leads.get(eater.id)
    if lead is None:
        yield "had no lead"
    elif lead.cable.start == given[eater.id]:
        yield "stays where it is"
    else:
        yield _why_moved(rig, wishes, eater, given=given, was=lead.cable.start)
    others = [rig.units[one].name for one in place.units if one != eater.id]
    if others:
        yield f"shares the outlet with {' and '.join(others)}; none of them is digital"
    if is_reversed(eater, wishes.kinds[place.kind]):
        yield "its lead swaps plus and minus: mark it, and use it for nothing else"


def _why_moved(
    rig: Rig, wishes: PowerWishes, eater: Eater, *, given: Mapping[str, Jack], was: Jack
) -> str:
    if eater.now is None:
        return f"{was} is not planned here"
    trouble = next(misfits(eater, wishes.kinds[eater.now]), None)
    if trouble:
        return f"{was} does not suit it: {trouble}"
    heirs = [rig.units[name].name for name, jack in given.items() if jack == was]
    if heirs:
        return f"{was} is for {' and '.join(heirs)}"
    return f"{was} can stay free: the whole is better so"


def misfits(eater: Eater, kind: Kind) -> Iterator[str]:
    """What is wrong with feeding a unit from an outlet of this kind, the worst first."""
    most = max(eater.running, eater.starting)
    if eater.ac != kind.ac:
        yield f"it gives {'AC' if kind.ac else 'DC'}, wanted is {'AC' if eater.ac else 'DC'}"
    elif not eater.millivolts <= kind.millivolts <= eater.most_millivolts:
        yield f"it gives {volts(kind.millivolts)}, wanted is {wanted_volts(eater)}"
    if most > kind.milliamps:
        yield f"it gives {kind.milliamps} mA, wanted are {most} mA"
    elif most * 100 > kind.milliamps * SHARE:
        yield f"{most} of its {kind.milliamps} mA would be used, more than {SHARE} %"
    if not kind.isolated and not eater.may_share:
        yield "it is not isolated"
    if is_reversed(eater, kind):
        yield f"it is {words(kind.polarity)}, wanted is {words(eater.polarity)}"
    if eater.zone != kind.zone:
        yield "it stands elsewhere"


def to_buy(rig: Rig, wishes: PowerWishes, plan: PowerPlan) -> Iterator[ToBuy]:
    """For every unit that is not served the smallest outlet that would do."""
    for eater in (one for one in wishes.eaters if one.id in plan.unplaced):
        most = max(eater.running, eater.starting)
        rating = -(-most * 100 // SHARE)
        rating = -(-rating // ROUND_MILLIAMPS) * ROUND_MILLIAMPS
        current = "AC" if eater.ac else f"DC {words(eater.polarity)}"
        isolated = "" if eater.may_share else "isolated, "
        yield ToBuy(
            unit=rig.units[eater.id],
            outlet=f"{isolated}{wanted_volts(eater)} {current}, at least {rating} mA",
            why=_why_none(eater, wishes) + (LEFT if eater.id in wishes.leads else ""),
        )


def _why_none(eater: Eater, wishes: PowerWishes) -> str:
    near = [kind for kind in wishes.kinds if kind.zone == eater.zone]
    if not near:
        return "there is no supply where it stands"
    troubles = [next(misfits(eater, kind), "") for kind in near]
    if all(troubles):
        return f"no outlet suits it: {'; '.join(dict.fromkeys(troubles))}"
    return "all outlets that suit it are wanted by other units"


def wanted_volts(eater: Eater) -> str:
    """The voltages a unit bears: `9 V`, or `9 V to 18 V`."""
    if eater.most_millivolts == eater.millivolts:
        return volts(eater.millivolts)
    return f"{volts(eater.millivolts)} to {volts(eater.most_millivolts)}"


def words(polarity: str | None) -> str:
    """A polarity as people say it."""
    return (polarity or "of unknown polarity").replace("-", " ")
