"""A sweep on an expression input with nothing in it."""

from collections.abc import Iterator

from thruline.base.address import at
from thruline.base.edit import add_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, a_sweep, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.lost_cables import may_lead_to
from thruline.proof.pedals import input_of, pedal_at
from thruline.proof.rule import Rule, rule_id
from thruline.rig.cable import Jack
from thruline.rig.socket import SocketKind


def _look(case: Case) -> Iterator[Result]:
    for jack in dict.fromkeys(sweep.pedal for sweep in case.rig.sweeps):
        sweeps = [sweep for sweep in case.rig.sweeps if sweep.pedal == jack]
        if input_of(case.rig, sweeps[0]) is None or pedal_at(case.rig, jack) is not None:
            continue
        if may_lead_to(case.rig, jack):
            continue
        names = " and ".join(f'"{sweep.name}"' for sweep in sweeps)
        unit = case.rig.units[jack.unit]
        yield RULE.finding(
            f"nothing is plugged into {unit.name} {jack.socket}, which sweep {names} reads",
            unit.address,
            *(sweep.address for sweep in sweeps),
            evidence=[facts(("input", str(jack)), ("cables to it", "none"))],
            mends=_mends(case, jack),
        )


def _mends(case: Case, jack: Jack) -> Iterator[Mend]:
    """Plug in the first pedal that is on the board and not plugged in anywhere."""
    used = {cable.start for cable in case.rig.cables}
    wanted = case.rig.units[jack.unit].chart.sockets[jack.socket].connector
    for unit in case.rig.units.values():
        for socket in unit.chart.sockets.values():
            start = Jack(unit.id, socket.id)
            if socket.kind is SocketKind.EXPRESSION_OUT and start not in used:
                lead = {"from": str(start), "to": str(jack), "ends": f"{socket.connector}/{wanted}"}
                yield Mend(f"Plug {unit.name} into {jack.socket}", (add_to(at("cable"), lead),))
                return


_SWEEP = (
    DELAY,
    TO_DELAY,
    a_unit("treadle", "ribston-treadle"),
    a_sweep("Swell", 'unit = "delay", control = "mix", heel = 0, toe = 100'),
)

RULE = Rule(
    id=rule_id(__name__),
    title="A sweep without a pedal",
    severity=Severity.FAULT,
    why=(
        "The controller reads an empty input. It sends nothing, or whatever noise it picks up on "
        "the open contact."
    ),
    failing=board(*_SWEEP),
    passing=board(*_SWEEP, a_cable("treadle.output", "feet.exp-1", ends="trs-6.35/trs-6.35")),
    look_whole=_look,
)
