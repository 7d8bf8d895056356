"""A sweep that names a socket which is no expression input."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_sweep, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.pedals import input_of
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    controller = case.rig.controller
    for sweep in case.rig.sweeps:
        if input_of(case.rig, sweep) is None:
            unit = case.rig.units[sweep.pedal.unit]
            where = sweep.address.child("pedal")
            inputs = list(controller.chart.pedals) if controller else []
            yield RULE.finding(
                f'sweep "{sweep.name}" is on {unit.name} {sweep.pedal.socket}, which is no '
                "expression input",
                where,
                evidence=[facts(("expression inputs", ", ".join(inputs) or "none"))],
                mends=[
                    Mend(f"Put it on {one}", (set_to(where, f"{controller.id}.{one}"),))
                    for one in inputs
                    if controller
                ],
            )


_MOVE = 'unit = "delay", control = "mix", heel = 0, toe = 100'

RULE = Rule(
    id=rule_id(__name__),
    title="A sweep on a socket that is no expression input",
    severity=Severity.FAULT,
    why=(
        "A sweep needs the controller to read a pedal. The socket it names cannot do that, so "
        "nothing ever moves."
    ),
    failing=board(DELAY, TO_DELAY, a_sweep("Swell", _MOVE, pedal="feet.midi-in")),
    passing=board(DELAY, TO_DELAY, a_sweep("Swell", _MOVE)),
    look_whole=_look,
)
