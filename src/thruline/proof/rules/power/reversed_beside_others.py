"""A lead that swaps plus and minus, on a return that others share or may share."""

from collections.abc import Iterator, Sequence

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_cable, a_power_lead, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.power_leads import (
    CAUTION,
    Fed,
    beside,
    fed_leads,
    may_be_reversed,
    power_leads,
)
from thruline.proof.power_mends import move_to_free_outlet, reversed_alone
from thruline.proof.rule import Rule, rule_id
from thruline.rig.power import Outlet


def _look(case: Case) -> Iterator[Result]:
    for fed in fed_leads(case.rig):
        if not fed.reversed_ or fed.outlet is None or fed.outlet.ac:
            continue
        others = beside(case.rig, fed.supply, fed.outlet, unit=fed.unit.id)
        if may_be_reversed(fed.outlet, others):
            continue
        yield RULE.finding(
            f"the lead to {fed.unit.name} swaps plus and minus, and {_return(fed, others)}",
            fed.cable.address,
            evidence=[
                facts(
                    (f"{fed.supply.name} {fed.outlet.socket}", _kind(fed.outlet)),
                    ("on the same return", _names(others) or "nothing yet"),
                    ("caution", CAUTION),
                )
            ],
            mends=_mends(case, fed),
            harms=True,
        )


def _return(fed: Fed, others: Sequence[Fed]) -> str:
    if others:
        return f"shares its return with {_names(others)}: that shorts {fed.supply.name}"
    return (
        f"its outlet is not isolated: whatever is fed beside it shorts {fed.supply.name}, and so "
        "can the ground of an audio lead"
    )


def _names(others: Sequence[Fed]) -> str:
    return " and ".join(one.unit.name for one in others)


def _kind(outlet: Outlet) -> str:
    return "isolated" if outlet.isolated else "not isolated"


def _mends(case: Case, fed: Fed) -> Iterator[Mend]:
    for lead in power_leads(case.rig):
        if lead.cable is fed.cable:
            yield from reversed_alone(case.rig, lead)
            yield from move_to_free_outlet(case.rig, lead)


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
