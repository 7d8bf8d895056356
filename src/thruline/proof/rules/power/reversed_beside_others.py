"""A lead that swaps plus and minus, on a return that others share."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_cable, a_power_lead, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.power_leads import CAUTION, on_one_return, power_leads
from thruline.proof.power_mends import move_to_free_outlet, reversed_alone
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    leads = [one for one in power_leads(case.rig) if not one.outlet.ac]
    for lead in leads:
        others = [one for one in on_one_return(lead, leads) if not one.reversed_]
        if lead.reversed_ and others:
            names = " and ".join(one.unit.name for one in others)
            yield RULE.finding(
                f"the lead to {lead.unit.name} swaps plus and minus, and shares its return with "
                f"{names}: that shorts {lead.supply.name}",
                lead.cable.address,
                evidence=[
                    facts(
                        (lead.outlet_words, "isolated" if lead.outlet.isolated else "not isolated"),
                        ("on the same return", ", ".join(one.unit.name for one in others)),
                        ("caution", CAUTION),
                    )
                ],
                mends=(
                    *reversed_alone(case.rig, lead),
                    *move_to_free_outlet(case.rig, lead),
                ),
                harms=True,
            )


_TWO = (
    a_unit("shared", "idared-supply"),
    a_unit("apart", "elstar-supply"),
    a_unit("bass", "worcester-bass", "channel = 5"),
    a_unit("drive", "russet-drive"),
    a_power_lead("shared.outlet-1", "drive.power-in"),
)


def _crossed(outlet: str) -> str:
    ends = "barrel-2.1/barrel-2.5"
    return a_cable(outlet, "bass.power-in", 'wiring = "crossed"', ends=ends)


RULE = Rule(
    id=rule_id(__name__),
    title="A polarity-reversing lead beside others",
    severity=Severity.FAULT,
    why=(
        "Outlets that are not isolated have their returns joined, and audio leads join the grounds "
        "of units. Over a lead that swaps plus and minus, the plus of the supply then meets its "
        "own return: a short, with hot leads or a dead supply. Such a lead belongs on an isolated "
        "outlet that feeds nothing else."
    ),
    failing=board(*_TWO, _crossed("shared.outlet-2")),
    passing=board(*_TWO, _crossed("apart.outlet-11")),
    look_board=_look,
)
