"""AC into a unit that wants DC, or DC into one that wants AC."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_power_lead, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.power_leads import CAUTION, power_leads
from thruline.proof.power_mends import move_to_free_outlet
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    for lead in power_leads(case.rig):
        if lead.need.ac != lead.outlet.ac:
            wants, gets = _words(ac=lead.need.ac), _words(ac=lead.outlet.ac)
            yield RULE.finding(
                f"{lead.unit.name} wants {wants} and gets {gets} from {lead.outlet_words}",
                lead.cable.address,
                evidence=[
                    facts((lead.unit.name, wants), (lead.outlet_words, gets), ("caution", CAUTION))
                ],
                mends=move_to_free_outlet(case.rig, lead),
                harms=lead.outlet.ac,
            )


def _words(*, ac: bool) -> str:
    return "alternating current (AC)" if ac else "direct current (DC)"


_DELAY = (a_unit("supply", "idared-supply"), a_unit("delay", "bramley-delay", "channel = 3"))

RULE = Rule(
    id=rule_id(__name__),
    title="AC and DC mixed up",
    severity=Severity.FAULT,
    why=(
        "AC into a DC unit hums loudly or harms it; DC into an AC unit leaves half of it without "
        "supply. The plugs are the same, only the label tells."
    ),
    failing=board(*_DELAY, a_power_lead("supply.outlet-4", "delay.power-in")),
    passing=board(*_DELAY, a_power_lead("supply.outlet-1", "delay.power-in")),
    look_board=_look,
)
