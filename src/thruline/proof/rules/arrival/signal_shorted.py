"""A MIDI link on which a signal meets the shield, or both wires meet."""

from collections.abc import Iterator

from thruline.path.contacts import LinkState
from thruline.proof.bad_links import link_findings
from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    says = "a signal is shorted on the way"
    return link_findings(case, RULE, {LinkState.SHORTED}, says=says)


_SHORT = a_cable("feet.midi-out-1", "delay.midi-in", 'wiring = { 4 = "4", 5 = "4", 2 = "2" }')

RULE = Rule(
    id=rule_id(__name__),
    title="A signal shorted",
    severity=Severity.FAULT,
    why=(
        "A wire of the pair meets the shield or the other wire, as when a mono plug goes into a "
        "stereo socket. The sender drives a short instead of the receiver."
    ),
    failing=board(DELAY, _SHORT),
    passing=board(DELAY, TO_DELAY),
    look_board=_look,
)
