"""A digital unit that shares its supply's return with others."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_power_lead, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.power_leads import CAUTION, on_one_return, power_leads
from thruline.proof.power_mends import move_to_free_outlet
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    leads = list(power_leads(case.rig))
    for lead in leads:
        others = on_one_return(lead, leads)
        if lead.need.digital is None and others:
            yield RULE.untold(
                f"whether {lead.unit.name} may share a supply return cannot be told",
                lead.cable.address,
                lacks=f"digital in chart {lead.unit.chart.id}",
            )
        if lead.need.digital and others:
            names = " and ".join(other.unit.name for other in others)
            yield RULE.finding(
                f"{lead.unit.name} is digital and shares a supply return with {names}: its whine "
                "can be heard",
                lead.cable.address,
                evidence=[
                    facts(
                        (lead.outlet_words, "isolated" if lead.outlet.isolated else "not isolated"),
                        ("on the same return", ", ".join(other.unit.name for other in others)),
                        ("caution", CAUTION),
                    )
                ],
                mends=move_to_free_outlet(case.rig, lead, isolated=True),
            )


_TWO = (
    a_unit("shared", "idared-supply"),
    a_unit("apart", "elstar-supply"),
    a_unit("delay", "bramley-delay", "channel = 3"),
    a_unit("drive", "russet-drive"),
    a_power_lead("shared.outlet-1", "drive.power-in"),
)

RULE = Rule(
    id=rule_id(__name__),
    title="A digital unit on a shared outlet",
    severity=Severity.RISK,
    why=(
        "A digital unit draws its current in fast pulses. Where the return is shared, these pulses "
        "reach the audio of its neighbours as a high whine. An isolated outlet keeps them apart."
    ),
    failing=board(*_TWO, a_power_lead("shared.outlet-2", "delay.power-in")),
    passing=board(*_TWO, a_power_lead("apart.outlet-1", "delay.power-in")),
    look_board=_look,
)
