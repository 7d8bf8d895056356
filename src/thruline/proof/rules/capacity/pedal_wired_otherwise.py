"""An expression pedal with its wiper on another contact than the input reads."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_cable, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.pedal_leads import pedal_lead
from thruline.proof.pedals import inputs_in_use, wiring_read
from thruline.proof.rule import Rule, rule_id
from thruline.rig.cable import Jack
from thruline.rig.chart import Expression, Governs
from thruline.rig.controller import PedalInput
from thruline.rig.unit import Unit, setting_for

READS_RIGHT = {
    "wiper-on-tip": {"wiper-on-tip", "ends-swapped"},
    "wiper-on-ring": {"wiper-on-ring"},
}
"""Pedals that an input of each wiring reads over all of their travel (swapped ends: backwards)."""
_SWAPPED = {
    "wiper-on-tip": "wiper-on-ring",
    "wiper-on-ring": "wiper-on-tip",
    "ends-swapped": "none of the usual",
}


def _look(case: Case) -> Iterator[Result]:
    for unit, one, pedal in inputs_in_use(case.rig):
        built = pedal.chart.expression
        if built is None:
            continue
        reads = wiring_read(unit, one)
        if reads is None:
            yield RULE.untold(
                f"whether {unit.name} {one.socket} can read {pedal.name} cannot be told",
                unit.address,
                lacks=f"a setting for the wiring of {one.socket} in chart {unit.chart.id}",
            )
        elif _arrives(case, unit, one, built) not in READS_RIGHT[reads]:
            yield RULE.finding(
                f"{unit.name} {one.socket} reads the {_contact(reads)}, and {pedal.name} is wired "
                f"{_words(built)}: nearly all of its travel does nothing",
                unit.address.child("settings"),
                pedal.address,
                unit.address.child("pedal", one.socket),
                evidence=[facts((f"{unit.name} {one.socket}", reads), (pedal.name, built.wiring))],
                mends=_mends(unit, one, built),
            )


def _arrives(case: Case, unit: Unit, one: PedalInput, built: Expression) -> str:
    """The pedal's wiring as the input meets it, behind a lead that may exchange tip and ring."""
    lead = pedal_lead(case.rig, Jack(unit.id, one.socket))
    if lead is None or not lead.swaps:
        return built.wiring
    return _SWAPPED.get(built.wiring, built.wiring)


def _contact(wiring: str) -> str:
    return wiring.removeprefix("wiper-on-")


def _words(built: Expression) -> str:
    match built.wiring:
        case "two-wire":
            return "with two wires"
        case "ends-swapped":
            return "with its ends swapped"
        case other:
            return f"with its wiper on the {_contact(other)}"


def _mends(unit: Unit, one: PedalInput, built: Expression) -> Iterator[Mend]:
    setting = setting_for(unit, Governs.EXPRESSION_WIRING, one.socket)
    for value in setting.values if setting else ():
        if setting and built.wiring in READS_RIGHT.get(setting.means.get(value, ""), set()):
            where = unit.address.child("settings").child(setting.id)
            yield Mend(f'Set {unit.name} > {setting.name} to "{value}"', (set_to(where, value),))
            return


_LEAD = a_cable("treadle.output", "feet.exp-1", ends="trs-6.35/trs-6.35")

RULE = Rule(
    id=rule_id(__name__),
    title="A pedal wired for another input",
    severity=Severity.FAULT,
    why=(
        "A pedal has three contacts and there are two common orders. Read the wrong way, "
        "everything happens in the first tenth of the travel, the top is never reached, and the "
        "heel end loads the input."
    ),
    failing=board(a_unit("treadle", "costard-treadle"), _LEAD),
    passing=board(a_unit("treadle", "ribston-treadle"), _LEAD),
    look_board=_look,
)
