"""Centre negative into centre positive, or the other way round."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_cable, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.power_leads import CAUTION, Lead, bare_leads, on_one_return, power_leads
from thruline.proof.power_mends import move_to_free_outlet, reversed_alone
from thruline.proof.rule import Rule, rule_id
from thruline.rig.power import OTHER_POLARITY
from thruline.rig.whole import Rig


def _look(case: Case) -> Iterator[Result]:
    for lead in power_leads(case.rig):
        if lead.need.ac or lead.outlet.ac:
            continue
        arrives = _arrives(lead)
        if lead.need.polarity is None or arrives is None:
            yield _untold(lead)
        elif arrives != lead.need.polarity:
            yield RULE.finding(
                f"{lead.unit.name} wants {_words(lead.need.polarity)}, and {lead.outlet_words} "
                f"arrives there {_words(arrives)}",
                lead.cable.address,
                evidence=[
                    facts(
                        (lead.unit.name, _words(lead.need.polarity)),
                        (lead.outlet_words, _words(lead.outlet.polarity or "unknown")),
                        ("the lead", "swaps the contacts" if lead.reversed_ else "is straight"),
                        ("caution", CAUTION),
                    )
                ],
                mends=_mends(case.rig, lead),
                harms=True,
            )
    for bare in bare_leads(case.rig):
        if any(plug.startswith("barrel") for plug in bare.cable.plugs):
            yield RULE.untold(
                f"whether the polarity suits {bare.unit.name} cannot be told",
                bare.cable.address,
                lacks=bare.lacks("polarity"),
            )


def _arrives(lead: Lead) -> str | None:
    """The polarity at the unit's plug."""
    polarity = lead.outlet.polarity
    return OTHER_POLARITY.get(polarity or "") if lead.reversed_ else polarity


def _mends(rig: Rig, lead: Lead) -> Iterator[Mend]:
    if lead.reversed_:
        yield from _straight(rig, lead)
        return
    yield from reversed_alone(rig, lead)
    yield from move_to_free_outlet(rig, lead)


def _straight(rig: Rig, lead: Lead) -> Iterator[Mend]:
    """A straight lead; with others that swap on the same return, straight ones for all at once.

    One after the other they would short the supply in between.
    """
    leads = [one for one in power_leads(rig) if one.reversed_]
    all_of_it = [lead, *on_one_return(lead, leads)]
    if any(one.need.polarity != one.outlet.polarity for one in all_of_it):
        return
    a_lead = "a straight lead" if len(all_of_it) == 1 else "straight leads"
    yield Mend(
        f"Use {a_lead} from {lead.outlet_words} to "
        f"{' and '.join(one.unit.name for one in all_of_it)}",
        tuple(set_to(one.cable.address.child("wiring"), "straight") for one in all_of_it),
    )


def _untold(lead: Lead) -> Result:
    chart = lead.unit.chart if lead.need.polarity is None else lead.supply.chart
    return RULE.untold(
        f"whether the polarity suits {lead.unit.name} cannot be told",
        lead.cable.address,
        lacks=f"polarity in chart {chart.id}",
    )


def _words(polarity: str) -> str:
    return polarity.replace("-", " ")


_BASS = (a_unit("supply", "elstar-supply"), a_unit("bass", "worcester-bass", "channel = 5"))

RULE = Rule(
    id=rule_id(__name__),
    title="The wrong polarity",
    severity=Severity.FAULT,
    why=(
        "With plus and minus swapped a unit stays dead if it is lucky and is harmed if it is not, "
        "and on a shared supply it can short the whole board through the grounds of its audio "
        "leads."
    ),
    failing=board(
        *_BASS, a_cable("supply.outlet-11", "bass.power-in", ends="barrel-2.1/barrel-2.5")
    ),
    passing=board(
        *_BASS,
        a_cable(
            "supply.outlet-11", "bass.power-in", 'wiring = "crossed"', ends="barrel-2.1/barrel-2.5"
        ),
    ),
    look_board=_look,
)
