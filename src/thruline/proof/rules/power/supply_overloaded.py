"""More power wanted from a supply than it has."""

from collections import defaultdict
from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_power_lead, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.power_leads import MOST_SHARE, Lead, power_leads
from thruline.proof.rule import Example, Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    by_supply: dict[str, list[Lead]] = defaultdict(list)
    for lead in power_leads(case.rig):
        by_supply[lead.supply.id].append(lead)
    for leads in by_supply.values():
        supply = leads[0].supply
        has = supply.chart.supply_milliwatts
        if has is None:
            if len({lead.outlet.socket for lead in leads}) > 1:
                says = f"whether {supply.name} has the power for all units on it cannot be told"
                lacks = f"milliwatts of [supply] in chart {supply.chart.id}"
                yield RULE.untold(says, supply.address, lacks=lacks)
            continue
        drawn = sum(lead.outlet.millivolts * (lead.need.milliamps or 0) // 1000 for lead in leads)
        if drawn * 100 > has * MOST_SHARE:
            yield RULE.finding(
                f"the units on {supply.name} draw {drawn / 1000:.1f} W; it has {has / 1000:.1f} "
                "W in "
                f"all, of which {MOST_SHARE} % should be used",
                supply.address,
                evidence=[facts(*((lead.unit.name, _watts(lead)) for lead in leads))],
                severity=Severity.FAULT if drawn > has else Severity.RISK,
            )


def _watts(lead: Lead) -> str:
    return f"{lead.outlet.millivolts * (lead.need.milliamps or 0) / 1_000_000:.1f} W"


_SUPPLY = """
format = 1

[chart]
id = "small-supply"
maker = "Example"
model = "Small"
kind = "power supply"
about = "An invented supply with little power."

[supply]
milliwatts = {milliwatts}

[[socket]]
id = "outlet-1"
kind = "power-out"
connector = "barrel-2.1"

[[outlet]]
socket = "outlet-1"
millivolts = 9000
polarity = "centre-negative"
milliamps = 500
isolated = true
"""

_RIG = board(
    a_unit("supply", "small-supply"),
    a_unit("delay", "bramley-delay", "channel = 3"),
    a_power_lead("supply.outlet-1", "delay.power-in"),
).rig

RULE = Rule(
    id=rule_id(__name__),
    title="A supply that is asked for too much",
    severity=Severity.FAULT,
    why=(
        "Each outlet may be within its rating and the supply as a whole still not have the power "
        "for all of them. It then gets hot, hums, or drops out at the loudest moment."
    ),
    failing=Example(_RIG, charts=(_SUPPLY.format(milliwatts=2000),)),
    passing=Example(_RIG, charts=(_SUPPLY.format(milliwatts=10000),)),
    look_board=_look,
)
