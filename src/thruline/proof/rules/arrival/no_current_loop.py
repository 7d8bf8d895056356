"""A sender that gives a voltage only, into a receiver that wants a current."""

from collections.abc import Iterator

from thruline.path.contacts import LinkState
from thruline.proof.bad_links import link_findings
from thruline.proof.case import Case
from thruline.proof.example_boards import REVERB, a_cable, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    says = "the sender gives a voltage only, and the isolated receiver wants a current"
    return link_findings(case, RULE, {LinkState.NO_LOOP}, says=says)


def _from_host(socket: str, plug: str) -> str:
    return a_cable(f"host.{socket}", "reverb.midi-in", ends=f"{plug}/trs-3.5")


_HOST = a_unit("host", "suntan-host")

RULE = Rule(
    id=rule_id(__name__),
    title="No current loop",
    severity=Severity.FAULT,
    why=(
        "Some jack sockets carry the data as a bare voltage. An isolated input lights its lamp "
        "from a current that must come and go over two wires, and there is none. A box that makes "
        "a proper MIDI OUT of it must go between."
    ),
    failing=board(_HOST, REVERB, _from_host("aux-out", "trs-3.5")),
    passing=board(_HOST, REVERB, _from_host("midi-out", "trs-2.5")),
    look_board=_look,
)
