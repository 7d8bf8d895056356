"""A unit that wants power, on a board with supplies, and no lead to it."""

from collections.abc import Iterator

from thruline.base.address import at
from thruline.base.edit import add_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_power_lead, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.lost_cables import may_lead_to
from thruline.proof.power_leads import CAUTION, free_outlets, power_sockets, suits
from thruline.proof.rule import Rule, rule_id
from thruline.rig.cable import Jack
from thruline.rig.power import Need
from thruline.rig.socket import SocketKind
from thruline.rig.unit import Unit


def _look(case: Case) -> Iterator[Result]:
    if not any(_is_supply(unit) for unit in case.rig.units.values()):
        return
    fed = {
        cable.stop.unit
        for cable in case.rig.cables
        if _feeds(case, cable.stop.unit, cable.stop.socket)
    }
    for unit in case.rig.units.values():
        need = unit.chart.power
        if unit.id in fed or (need is None and not power_sockets(unit)):
            continue
        if any(may_lead_to(case.rig, Jack(unit.id, one.id)) for one in power_sockets(unit)):
            continue
        wants = f", which wants {need.millivolts / 1000:g} V" if need else ""
        yield RULE.finding(
            f"no power lead goes to {unit.name}{wants}",
            unit.address,
            evidence=[
                facts(
                    ("wants", _words(need) if need else "its chart does not say"),
                    ("caution", CAUTION),
                )
            ],
            mends=_mends(case, unit, need) if need else (),
        )


def _is_supply(unit: Unit) -> bool:
    return any(one.kind is SocketKind.POWER_OUT for one in unit.chart.sockets.values())


def _feeds(case: Case, unit_id: str, socket: str) -> bool:
    sockets = case.rig.units[unit_id].chart.sockets
    kinds = (SocketKind.POWER_IN, SocketKind.USB)
    return sockets[socket].kind in kinds


def _words(need: Need) -> str:
    current = f", {need.milliamps} mA" if need.milliamps else ""
    return f"{need.millivolts / 1000:g} V {'AC' if need.ac else 'DC'}{current}"


def _mends(case: Case, unit: Unit, need: Need) -> Iterator[Mend]:
    sockets = power_sockets(unit)
    for supply, outlet in free_outlets(case.rig):
        if sockets and suits(outlet, need):
            plug = supply.chart.sockets[outlet.socket].connector
            lead = {
                "from": f"{supply.id}.{outlet.socket}",
                "to": f"{unit.id}.{sockets[0].id}",
                "ends": f"{plug}/{sockets[0].connector}",
            }
            yield Mend(
                f"Feed {unit.name} from {supply.name} {outlet.socket}", (add_to(at("cable"), lead),)
            )
            return


_DELAY = (a_unit("supply", "elstar-supply"), a_unit("delay", "bramley-delay", "channel = 3"))
_FEET = a_power_lead("supply.outlet-2", "feet.power-in")

RULE = Rule(
    id=rule_id(__name__),
    title="A unit without power",
    severity=Severity.FAULT,
    why=(
        "The plan gives every other unit an outlet and forgot this one. A dead unit also stops "
        "MIDI: even a THRU socket needs power to pass anything on."
    ),
    failing=board(*_DELAY, _FEET),
    passing=board(*_DELAY, _FEET, a_power_lead("supply.outlet-1", "delay.power-in")),
    look_whole=_look,
)
