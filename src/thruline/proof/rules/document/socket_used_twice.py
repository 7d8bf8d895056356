"""Two cables in one socket."""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from thruline.base.edit import remove
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.cable import Cable, Jack
from thruline.rig.socket import SocketKind

MOST_MENDS = 3


def _look(case: Case) -> Iterator[Result]:
    used: dict[Jack, list[Cable]] = defaultdict(list)
    for cable in case.rig.cables:
        for jack in (cable.start, cable.stop):
            used[jack].append(cable)
    for jack, cables in used.items():
        unit = case.rig.units[jack.unit]
        # Several leads from one outlet are a daisy chain, which the power rules look at.
        if len(cables) > 1 and unit.chart.sockets[jack.socket].kind is not SocketKind.POWER_OUT:
            yield RULE.finding(
                f"{len(cables)} cables are plugged into {unit.name} {jack.socket}, and it has "
                "one hole",
                *(cable.address for cable in cables[1:]),
                unit.address.child("socket", jack.socket),
                evidence=[
                    facts(*((f"cable {n}", cable.name) for n, cable in enumerate(cables, 1)))
                ],
                mends=[
                    Mend(f"Take out the cable {_told(cable, cables)}", (remove(cable.address),))
                    for cable in (*cables[1:], cables[0])[:MOST_MENDS]
                ],
            )


def _told(cable: Cable, cables: Sequence[Cable]) -> str:
    """The cable by its ends; among others between the same sockets, which of them in the file."""
    alike = sum(other.name == cable.name for other in cables)
    if alike == 1:
        return cable.name
    return f"{cable.name} that stands at place {cable.occurrence} of {alike} alike"


RULE = Rule(
    id=rule_id(__name__),
    title="Two cables in one socket",
    severity=Severity.FAULT,
    why=(
        "A socket takes one plug. Two outputs joined into one MIDI input garble each other, and "
        "one output split with a Y lead drives two inputs with the current of one. A merge or a "
        "split box does it properly."
    ),
    failing=board(DELAY, TO_DELAY, a_cable("feet.midi-out-2", "delay.midi-in")),
    passing=board(DELAY, TO_DELAY, a_cable("feet.usb", "delay.usb", ends="usb-c/usb-c")),
    look_board=_look,
)
