"""More current wanted from an outlet than it should give."""

from collections.abc import Iterator, Sequence

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_power_lead, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.power_leads import (
    MOST_SHARE,
    Lead,
    bare_leads,
    leads_by_outlet,
    start_milliamps,
)
from thruline.proof.power_mends import exchange_leads, move_to_free_outlet
from thruline.proof.rule import Rule, rule_id

WORST_START = 500
"""Percent of its current that a unit may draw at start-up, at most, as charts may say it."""


def _look(case: Case) -> Iterator[Result]:
    for leads in leads_by_outlet(case.rig).values():
        yield from _unknown(leads)
        outlet = leads[0].outlet
        running = sum(lead.need.milliamps or 0 for lead in leads)
        starting = sum(start_milliamps(lead.need) or 0 for lead in leads)
        if max(running, starting) * 100 > outlet.milliamps * MOST_SHARE:
            names = " and ".join(lead.unit.name for lead in leads)
            verb = "draws" if len(leads) == 1 else "draw"
            over = starting > outlet.milliamps or running > outlet.milliamps
            yield RULE.finding(
                f"{names} {verb} {running} mA from {leads[0].outlet_words}, {starting} mA at "
                "start-up; "
                f"it gives {outlet.milliamps} mA, of which {MOST_SHARE} % should be used",
                *(lead.cable.address for lead in leads),
                evidence=[
                    facts(
                        *((lead.unit.name, _draws(lead)) for lead in leads),
                        (leads[0].outlet_words, f"{outlet.milliamps} mA"),
                    )
                ],
                mends=(
                    *move_to_free_outlet(case.rig, leads[-1]),
                    *exchange_leads(case.rig, leads[-1]),
                ),
                severity=Severity.FAULT if over else Severity.RISK,
            )

    for bare in bare_leads(case.rig):
        yield RULE.untold(
            f"whether {bare.outlet_words} is strong enough for {bare.unit.name} cannot be told",
            bare.cable.address,
            lacks=bare.lacks("milliamps"),
        )


def _draws(lead: Lead) -> str:
    return f"{lead.need.milliamps} mA, {start_milliamps(lead.need)} mA at start-up"


def _unknown(leads: Sequence[Lead]) -> Iterator[Result]:
    for lead in leads:
        if lead.need.milliamps is None:
            yield RULE.untold(
                f"whether {lead.outlet_words} is strong enough for {lead.unit.name} cannot be told",
                lead.unit.address,
                lacks=f"milliamps in chart {lead.unit.chart.id}",
            )
        elif _start_unknown(lead) and _may_fold_back(leads):
            yield RULE.untold(
                f"whether {lead.outlet_words} is strong enough when {lead.unit.name} starts "
                "cannot be told",
                lead.unit.address,
                lacks=f"start-percent in chart {lead.unit.chart.id}",
            )


def _start_unknown(lead: Lead) -> bool:
    """Whether it may draw more at start-up; what is not digital starts as it runs."""
    return lead.need.start_percent is None and lead.need.digital is not False


def _may_fold_back(leads: Sequence[Lead]) -> bool:
    """Whether the outlet would be asked for too much, if what is not told were at its worst."""
    starting = 0
    for lead in leads:
        percent = WORST_START if _start_unknown(lead) else lead.need.start_percent or 100
        starting += (lead.need.milliamps or 0) * percent // 100
    return starting * 100 > leads[0].outlet.milliamps * MOST_SHARE


_DELAY = (a_unit("supply", "elstar-supply"), a_unit("delay", "bramley-delay", "channel = 3"))

RULE = Rule(
    id=rule_id(__name__),
    title="An outlet that is asked for too much",
    severity=Severity.FAULT,
    why=(
        "An outlet that is asked for more than it can give folds back: units reset in rhythm, or "
        "do not start when all are switched on together. A fifth of its rating is kept in hand, "
        "and digital units take more at start-up than their label says."
    ),
    failing=board(*_DELAY, a_power_lead("supply.outlet-9", "delay.power-in")),
    passing=board(*_DELAY, a_power_lead("supply.outlet-1", "delay.power-in")),
    look_board=_look,
)
