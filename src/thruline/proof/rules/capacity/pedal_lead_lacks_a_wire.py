"""An expression pedal on a lead that does not carry its three contacts one by one."""

from collections.abc import Iterator

from thruline.base.edit import Edit, set_to
from thruline.path.words import jack_in_words
from thruline.proof.case import Case
from thruline.proof.evidence import way
from thruline.proof.example_boards import a_cable, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.pedal_leads import THREE, PedalLead, pedal_lead
from thruline.proof.pedals import inputs_in_use, wiring_read
from thruline.proof.rule import Rule, rule_id
from thruline.rig.cable import Jack
from thruline.rig.whole import Rig

_ROLES = {
    "wiper-on-tip": {"tip": "the wiper", "ring": "the supply", "sleeve": "the ground"},
    "wiper-on-ring": {"ring": "the wiper", "tip": "the supply", "sleeve": "the ground"},
}
"""What an input expects on each of its contacts."""


def _look(case: Case) -> Iterator[Result]:
    for unit, one, pedal in inputs_in_use(case.rig):
        built, lead = pedal.chart.expression, pedal_lead(case.rig, Jack(unit.id, one.socket))
        if built is None or built.wiring == "two-wire" or lead is None or lead.is_whole:
            continue
        roles = _ROLES.get(wiring_read(unit, one) or "", {})
        start, stop = (
            jack_in_words(case.rig.units, jack) for jack in (lead.cable.start, lead.cable.stop)
        )
        yield RULE.finding(
            f"the lead from {start} to {stop} {' and '.join(_troubles(lead, roles))}: the pedal "
            "does nothing there, or jumps",
            lead.cable.address.child("ends"),
            evidence=[way(*_contacts(lead, roles))],
            mends=_mends(case.rig, lead),
        )


def _troubles(lead: PedalLead, roles: dict[str, str]) -> Iterator[str]:
    for first, second in lead.shorted:
        yield f"joins {_called(first, roles)} with {_called(second, roles)}"
    for one in lead.open_:
        if not any(one in pair for pair in lead.shorted):
            yield f"leaves {_called(one, roles)} open"


def _called(contact: str, roles: dict[str, str]) -> str:
    return f"{roles[contact]} ({contact})" if contact in roles else f"the {contact}"


def _contacts(lead: PedalLead, roles: dict[str, str]) -> Iterator[tuple[str, str]]:
    for one in THREE:
        met = " and ".join(lead.comes_from[one])
        yield f"{one} of the input", f"{roles.get(one, 'a contact')}: meets {met or 'nothing'}"


def _mends(rig: Rig, lead: PedalLead) -> Iterator[Mend]:
    """A lead with three contacts at both ends, where both sockets have them."""
    ends = [
        rig.units[jack.unit].chart.sockets[jack.socket].connector
        for jack in (lead.cable.start, lead.cable.stop)
    ]
    if not all(end.startswith("trs") for end in ends):
        return
    edits: list[Edit] = [set_to(lead.cable.address.child("ends"), "/".join(ends))]
    if lead.cable.wiring != "straight":
        edits.append(set_to(lead.cable.address.child("wiring"), "straight"))
    yield Mend("Make it with three contacts at both ends, straight", tuple(edits))


_TREADLE = a_unit("treadle", "ribston-treadle")

RULE = Rule(
    id=rule_id(__name__),
    title="A pedal lead with a wire too few",
    severity=Severity.FAULT,
    why=(
        "A pedal is a track with a wiper: the input feeds the track over one contact, reads the "
        "wiper over another, and both share the ground. A mono lead has two contacts, so its plug "
        "lays the ring on the sleeve, and the pedal is dead or jumps from end to end."
    ),
    failing=board(_TREADLE, a_cable("treadle.output", "feet.exp-1", ends="ts-6.35/ts-6.35")),
    passing=board(_TREADLE, a_cable("treadle.output", "feet.exp-1", ends="trs-6.35/trs-6.35")),
    look_board=_look,
)
