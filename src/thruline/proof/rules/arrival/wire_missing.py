"""A MIDI link with a wire missing, or an adapter that ends nowhere."""

from collections.abc import Iterator

from thruline.path.contacts import LinkState
from thruline.path.links import Link
from thruline.proof.bad_links import link_findings, links_in
from thruline.proof.case import Case
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.socket import SocketKind


def _look(case: Case) -> Iterator[Result]:
    says = "a wire that the current needs is missing on the way"
    yield from link_findings(case, RULE, {LinkState.OPEN}, says=says)
    says = "it ends at an adapter with nothing plugged in behind it"
    yield from link_findings(case, RULE, {LinkState.LOOSE_END}, says=says)
    for link in links_in(case, {LinkState.CANNOT_TELL}):
        unit = case.rig.units[link.stop.unit]
        yield RULE.untold(
            f"whether messages get from {link.start.unit} to {unit.name} cannot be told: "
            f"{link.why}",
            *(cable.address for cable in link.cables),
            lacks=_lacks(case, link),
        )


def _lacks(case: Case, link: Link) -> str:
    """The fact that is missing: a wiring that no chart gives, or how the input reads."""
    for jack in (link.start, link.stop):
        chart = case.rig.units[jack.unit].chart
        socket = chart.sockets[jack.socket]
        if socket.wiring is None and socket.kind is not SocketKind.USB:
            return f"wiring of socket {jack.socket} in chart {chart.id} (type-a, type-b, ...)"
    chart = case.rig.units[link.stop.unit].chart
    return f"how socket {link.stop.socket} reads its input, in chart {chart.id}"


_HALF = a_cable("feet.midi-out-1", "delay.midi-in", 'wiring = { 4 = "4", 2 = "2" }')

RULE = Rule(
    id=rule_id(__name__),
    title="A wire missing",
    severity=Severity.FAULT,
    why=(
        "The current of a MIDI link needs both wires of the pair. With one missing, in the cable "
        "or because the plug has no contact for it, the receiver sees an idle line."
    ),
    failing=board(DELAY, _HALF),
    passing=board(DELAY, TO_DELAY),
    look_board=_look,
)
