"""A MIDI link whose two wires are swapped."""

from collections.abc import Iterator

from thruline.path.contacts import LinkState
from thruline.proof.bad_links import link_findings
from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, REVERB, TO_DELAY, a_cable, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    says = "the two wires of the pair are swapped (the other TRS type, or a crossed lead)"
    return link_findings(case, RULE, {LinkState.REVERSED}, says=says)


def _to_reverb(wiring: str) -> str:
    return a_cable("delay.midi-thru", "reverb.midi-in", f'wiring = "{wiring}"', ends="din5/trs-3.5")


RULE = Rule(
    id=rule_id(__name__),
    title="Contacts reversed",
    severity=Severity.FAULT,
    why=(
        "MIDI is a current that must go round the right way. Two wirings of the small jack are in "
        "use that swap the pair; with the wrong adapter the receiver's light stays dark. Nothing "
        "is harmed, and nothing is heard."
    ),
    failing=board(DELAY, REVERB, TO_DELAY, _to_reverb("type-b")),
    passing=board(DELAY, REVERB, TO_DELAY, _to_reverb("type-a")),
    look_board=_look,
)
