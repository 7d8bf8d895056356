"""What the units of a rig want of a power plan, and the outlets there are."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from thruline.plan.power import Kind, Load, PowerPlan, kinds_of
from thruline.proof.power_leads import Lead, power_leads, start_milliamps
from thruline.rig.cable import Jack
from thruline.rig.power import Need, Outlet
from thruline.rig.socket import Socket, SocketKind
from thruline.rig.unit import Unit, outlet_of, outlet_positions
from thruline.rig.whole import Rig


@dataclass(frozen=True, slots=True, kw_only=True)
class Untold:
    """A unit or an outlet that cannot be planned, and the fact that its chart lacks."""

    unit: Unit
    lacks: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PowerWishes:
    """A rig as a power problem. `outlets` and `kind_of` stand in one order.

    `leads` are the leads that feed planned units now, `seconds` further ones to the same units.
    """

    loads: tuple[Load, ...]
    kinds: tuple[Kind, ...]
    outlets: tuple[Jack, ...]
    kind_of: tuple[int, ...]
    watts: Mapping[str, int | None]
    leads: Mapping[str, Lead]
    seconds: tuple[Lead, ...]
    untold: tuple[Untold, ...]


def power_wishes(rig: Rig, *, anywhere: bool = False) -> PowerWishes:
    """The units that want power and the outlets that may feed them.

    Where the document says of some units where they stand, those and the others are taken to be
    out of each other's reach, unless `anywhere`.
    """
    untold = tuple(_untold(rig))
    wanting = [one for one in _wanting(rig) if _lack_of(one[1]) is None]
    every = tuple(power_leads(rig))
    leads = {lead.unit.id: lead for lead in reversed(every)}
    seconds = [lead for lead in every if leads[lead.unit.id] is not lead]
    planned = {unit.id for unit, _, _ in wanting}
    taken = {cable.start for cable in rig.cables if cable.stop.unit not in planned}
    free = [
        Jack(supply.id, socket)
        for supply in rig.units.values()
        for socket in supply.chart.outlets
        if Jack(supply.id, socket) not in taken and _is_told(supply, socket)
    ]
    found = list(_in_banks({jack: _kinds(rig, jack, anywhere=anywhere) for jack in free}))
    kinds, kind_of = kinds_of([kind for _, kind in found])
    outlets = tuple(jack for jack, _ in found)
    number = {
        jack: place for jack, place in zip(outlets, kind_of, strict=True) if kinds[place].is_set
    }
    return PowerWishes(
        loads=tuple(
            _load(
                (unit, need, socket),
                now=_now(leads.get(unit.id), number),
                zone=_zone(rig, unit, anywhere),
            )
            for unit, need, socket in wanting
        ),
        kinds=kinds,
        outlets=outlets,
        kind_of=kind_of,
        watts={jack.unit: rig.units[jack.unit].chart.supply_milliwatts for jack in outlets},
        leads={name: lead for name, lead in leads.items() if name in planned},
        seconds=tuple(lead for lead in seconds if lead.unit.id in planned),
        untold=untold,
    )


_Wanting = tuple[Unit, Need, Socket]
"""A unit, what it wants, and the socket through which it is fed."""


def _wanting(rig: Rig) -> Iterator[_Wanting]:
    for unit in rig.units.values():
        socket = power_socket(unit)
        if unit.chart.power is not None and socket is not None:
            yield unit, unit.chart.power, socket


def power_socket(unit: Unit) -> Socket | None:
    """The socket through which a unit is fed by a supply, if it has one; mains is none of ours."""
    sockets = unit.chart.sockets.values()
    fed = (one for one in sockets if one.kind is SocketKind.POWER_IN and one.connector != "mains")
    return next(fed, None)


def _is_told(supply: Unit, socket: str) -> bool:
    """Whether it is known which contact of an outlet is plus: nothing is plugged in by guess."""
    outlet = supply.chart.outlets[socket]
    return outlet.ac or outlet.polarity is not None


def _untold(rig: Rig) -> Iterator[Untold]:
    for supply in rig.units.values():
        for socket in supply.chart.outlets:
            if not _is_told(supply, socket):
                yield Untold(unit=supply, lacks=f"polarity of {socket} in chart {supply.chart.id}")
    for unit, need, _ in _wanting(rig):
        lack = _lack_of(need)
        if lack is not None:
            yield Untold(unit=unit, lacks=f"{lack} in chart {unit.chart.id}")


def _lack_of(need: Need) -> str | None:
    """The fact without which nobody can say what feeds a unit."""
    if need.milliamps is None:
        return "milliamps"
    return "polarity" if need.polarity is None and not need.ac else None


def _zone(rig: Rig, unit: Unit, anywhere: bool) -> int:
    told = any(one.place for one in rig.units.values())
    return 1 if told and not anywhere and unit.place is None else 0


def _kinds(rig: Rig, jack: Jack, *, anywhere: bool) -> tuple[Kind, ...]:
    """What an outlet can be: one kind, or one for each position of a switch that is its own."""
    supply = rig.units[jack.unit]
    zone = _zone(rig, supply, anywhere)
    positions = outlet_positions(supply, jack.socket)
    if not positions or positions[0][0].socket is None:
        outlet = outlet_of(supply, jack.socket)
        return () if outlet is None else (_kind(supply, outlet, zone=zone),)
    return tuple(
        replace(
            _kind(supply, outlet, zone=zone),
            switch=value,
            is_set=supply.settings[setting.id] == value,
        )
        for setting, value, outlet in positions
    )


def _in_banks(kinds: Mapping[Jack, tuple[Kind, ...]]) -> Iterator[tuple[Jack, Kind]]:
    """Every outlet with every kind that it can be; those with the same choice share a bank."""
    banks: dict[tuple[Kind, ...], int] = {}
    for jack, those in kinds.items():
        bank = banks.setdefault(those, len(banks)) if len(those) > 1 else None
        for one in those:
            yield jack, replace(one, bank=bank)


def _kind(supply: Unit, outlet: Outlet, *, zone: int) -> Kind:
    return Kind(
        supply=supply.id,
        millivolts=outlet.millivolts,
        ac=outlet.ac,
        polarity=outlet.polarity,
        milliamps=outlet.milliamps,
        isolated=outlet.isolated,
        connector=supply.chart.sockets[outlet.socket].connector,
        zone=zone,
    )


def _now(lead: Lead | None, number: Mapping[Jack, int]) -> int | None:
    return None if lead is None else number.get(lead.cable.start)


def _load(wants: _Wanting, *, now: int | None, zone: int) -> Load:
    unit, need, socket = wants
    return Load(
        id=unit.id,
        millivolts=need.millivolts,
        most_millivolts=need.most_millivolts,
        ac=need.ac,
        polarity=need.polarity,
        running=need.milliamps or 0,
        starting=start_milliamps(need) or 0,
        may_share=need.digital is False,
        connector=socket.connector,
        now=now,
        zone=zone,
    )


def outlets_of(wishes: PowerWishes, plan: PowerPlan) -> dict[str, Jack]:
    """An outlet for every unit that the plan serves.

    A plan says only of which kind it is; among outlets of a kind each stays with who has it now.
    """
    free = list(zip(wishes.outlets, wishes.kind_of, strict=True))
    given: dict[str, Jack] = {}
    waiting: list[tuple[int, Sequence[str]]] = []
    for place in plan.places:
        has = [wishes.leads[one].cable.start for one in place.units if one in wishes.leads]
        kept = next((jack for jack in has if (jack, place.kind) in free), None)
        if kept is None:
            waiting.append((place.kind, place.units))
        else:
            free = [one for one in free if one[0] != kept]
            given |= dict.fromkeys(place.units, kept)
    for kind, units in waiting:
        jack = next(one for one, of_kind in free if of_kind == kind)
        free = [one for one in free if one[0] != jack]
        given |= dict.fromkeys(units, jack)
    return given
