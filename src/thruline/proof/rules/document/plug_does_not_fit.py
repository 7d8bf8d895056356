"""A plug that does not go into its socket."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.cable import Cable, joined
from thruline.rig.socket import plug_fits


def _look(case: Case) -> Iterator[Result]:
    for cable in case.rig.cables:
        sockets = [
            case.rig.units[jack.unit].chart.sockets[jack.socket]
            for jack in (cable.start, cable.stop)
        ]
        for plug, jack, socket in zip(cable.plugs, (cable.start, cable.stop), sockets, strict=True):
            if not plug_fits(plug, socket.connector):
                wanted = (sockets[0].connector, sockets[1].connector)
                yield RULE.finding(
                    f"the {plug} plug of the cable to {cable.stop.unit} does not go into "
                    f"{case.rig.units[jack.unit].name} {jack.socket}, which is {socket.connector}",
                    cable.address.child("ends"),
                    evidence=[
                        facts(("cable ends", "/".join(cable.plugs)), ("sockets", "/".join(wanted)))
                    ],
                    mends=_mends(cable, wanted),
                )
                break


def _mends(cable: Cable, wanted: tuple[str, str]) -> Iterator[Mend]:
    if joined(wanted, cable.wiring) is not None:
        ends = "/".join(wanted)
        yield Mend(
            f"Make the cable {cable.name} with ends {ends}",
            (set_to(cable.address.child("ends"), ends),),
        )


RULE = Rule(
    id=rule_id(__name__),
    title="A plug that does not fit",
    severity=Severity.FAULT,
    why=(
        "The cable is made with another plug than the socket takes, so it cannot be plugged in, or "
        "only by force. It is found at the bench, when the cable is already made."
    ),
    failing=board(DELAY, a_cable("feet.midi-out-1", "delay.midi-in", ends="din5/trs-3.5")),
    passing=board(DELAY, TO_DELAY),
    look_board=_look,
)
