"""A curve, or a heel above the toe, that the controller cannot make."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_sweep, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.pedals import input_of
from thruline.proof.rule import Rule, rule_id
from thruline.rig.controller import PedalInput
from thruline.rig.sweep import Move
from thruline.rig.values import Value


def _look(case: Case) -> Iterator[Result]:
    for sweep in case.rig.sweeps:
        able = input_of(case.rig, sweep)
        for move in sweep.moves if able else ():
            trouble = _trouble(move, able) if able else None
            where = sweep.address_of(move)
            if trouble:
                mend = Mend('Make the curve "linear"', (set_to(where.child("curve"), "linear"),))
                yield RULE.finding(
                    f'sweep "{sweep.name}" moves {move.control.name} of '
                    f"{case.rig.units[move.unit].name} {trouble}, which {sweep.pedal.socket} "
                    "cannot",
                    where,
                    evidence=[
                        facts(
                            ("curves it can make", ", ".join(sorted(able.curves if able else ())))
                        )
                    ],
                    mends=[mend] if "curve" in trouble else [],
                )


def _trouble(move: Move, able: PedalInput) -> str | None:
    if move.curve.name not in able.curves:
        return f'on the curve "{move.curve.name}"'
    ends = (move.heel, move.toe)
    if not able.reverse and all(isinstance(end, Value) for end in ends) and _falls(move):
        return "downwards from heel to toe"
    return None


def _falls(move: Move) -> bool:
    return (
        isinstance(move.heel, Value)
        and isinstance(move.toe, Value)
        and move.heel.wire > move.toe.wire
    )


def _sweep(curve: str) -> str:
    move = f'unit = "delay", control = "mix", heel = 0, toe = 100, curve = "{curve}"'
    return a_sweep("Swell", move, pedal="feet.exp")


RULE = Rule(
    id=rule_id(__name__),
    title="A curve that the controller cannot make",
    severity=Severity.FAULT,
    why=(
        "The controller turns the pedal's place into values by itself, and it knows only some "
        "curves; some cannot even run downwards. The sweep will feel different from what was "
        "planned."
    ),
    failing=board(DELAY, TO_DELAY, _sweep("s"), controller="quarrenden-three"),
    passing=board(DELAY, TO_DELAY, _sweep("linear"), controller="quarrenden-three"),
    look_whole=_look,
)
