"""A sweep with a heel or toe value that the control cannot have."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_sweep, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.value_mends import nearest_value
from thruline.rig.values import NotUnderstood


def _look(case: Case) -> Iterator[Result]:
    for sweep in case.rig.sweeps:
        for move in sweep.moves:
            for end, value in (("heel", move.heel), ("toe", move.toe)):
                if not isinstance(value, NotUnderstood):
                    continue
                where = sweep.address_of(move).child(end)
                yield RULE.finding(
                    f'sweep "{sweep.name}" takes {move.control.name} of '
                    f"{case.rig.units[move.unit].name} to {value.written} at the {end}: "
                    f"{value.why}",
                    where,
                    evidence=[facts(("written", value.written), ("for example", value.example))],
                    mends=nearest_value(move.control, value, where),
                )


def _sweep(toe: int) -> str:
    return a_sweep("Swell", f'unit = "delay", control = "mix", heel = 0, toe = {toe}')


RULE = Rule(
    id=rule_id(__name__),
    title="A sweep to a value that the control cannot have",
    severity=Severity.FAULT,
    why=(
        "One end of the sweep lies outside what the control takes. The controller cannot be "
        "programmed so, and near that end the pedal would do nothing."
    ),
    failing=board(DELAY, TO_DELAY, _sweep(140)),
    passing=board(DELAY, TO_DELAY, _sweep(127)),
    look_whole=_look,
)
