"""An outlet whose voltage the unit does not bear."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_power_lead, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.power_leads import CAUTION, Lead, bare_leads, power_leads, volts
from thruline.proof.power_mends import move_to_free_outlet, turn_switch
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    for lead in power_leads(case.rig):
        need, outlet = lead.need, lead.outlet
        if (
            need.ac == outlet.ac
            and not need.millivolts <= outlet.millivolts <= need.most_millivolts
        ):
            harms = outlet.millivolts > need.most_millivolts
            much = "more" if harms else "less"
            yield RULE.finding(
                f"{lead.unit.name} wants {_wanted(lead)} and gets {volts(outlet.millivolts)} from "
                f"{lead.outlet_words}, {much} than it bears",
                lead.cable.address,
                evidence=[
                    facts(
                        (lead.unit.name, _wanted(lead)),
                        (lead.outlet_words, volts(outlet.millivolts)),
                        ("caution", CAUTION),
                    )
                ],
                mends=(*turn_switch(case.rig, lead), *move_to_free_outlet(case.rig, lead)),
                harms=harms,
            )
    for bare in bare_leads(case.rig):
        yield RULE.untold(
            f"whether {bare.unit.name} bears the voltage of {bare.outlet_words} cannot be told",
            bare.cable.address,
            lacks=bare.lacks("millivolts"),
        )


def _wanted(lead: Lead) -> str:
    need = lead.need
    if need.most_millivolts == need.millivolts:
        return volts(need.millivolts)
    return f"{volts(need.millivolts)} to {volts(need.most_millivolts)}"


_DELAY = (a_unit("supply", "elstar-supply"), a_unit("delay", "bramley-delay", "channel = 3"))

RULE = Rule(
    id=rule_id(__name__),
    title="The wrong voltage",
    severity=Severity.FAULT,
    why=(
        "Too much voltage heats a unit until something in it gives up; too little and it does not "
        "start, or sounds thin and resets. Current may be more than a unit needs, voltage may not."
    ),
    failing=board(*_DELAY, a_power_lead("supply.outlet-12", "delay.power-in")),
    passing=board(*_DELAY, a_power_lead("supply.outlet-1", "delay.power-in")),
    look_board=_look,
)
