"""A sweep on a control that does not take to being swept."""

from collections.abc import Iterator

from thruline.base.edit import remove, set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_sweep, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.sweep import Move, Sweep
from thruline.rig.unit import Unit
from thruline.rig.values import ControlKind


def _look(case: Case) -> Iterator[Result]:
    untold: set[tuple[str, str]] = set()
    for sweep in case.rig.sweeps:
        for move in sweep.moves:
            unit = case.rig.units[move.unit]
            where = sweep.address_of(move)
            trouble = _trouble(move)
            if trouble:
                yield RULE.finding(
                    f'sweep "{sweep.name}" moves {move.control.name} of {unit.name}, {trouble}',
                    where,
                    evidence=[
                        facts(
                            ("kind of control", move.control.kind.value),
                            ("suited to a pedal", move.control.expression or "not said"),
                        )
                    ],
                    mends=_mends(sweep, move, unit),
                    severity=Severity.FAULT if _is_fault(move) else Severity.RISK,
                )
            elif move.control.expression is None and (unit.chart.id, move.control.id) not in untold:
                untold.add((unit.chart.id, move.control.id))
                yield RULE.untold(
                    f"whether {move.control.name} of {unit.name} can be swept without noise cannot "
                    "be told",
                    where,
                    lacks=f"expression of control {move.control.id} in chart {unit.chart.id}",
                )


def _mends(sweep: Sweep, move: Move, unit: Unit) -> Iterator[Mend]:
    """Move a control of the same unit that takes to it, or leave this one alone."""
    where = sweep.address_of(move)
    moved = {one.control.id for one in sweep.moves if one.unit == unit.id}
    for other in unit.chart.controls.values():
        if other.expression == "good" and other.id not in moved:
            edits = (
                set_to(where.child("heel"), other.low),
                set_to(where.child("toe"), other.high),
                set_to(where.child("control"), other.id),
            )
            yield Mend(f"Move {other.name} instead, from {other.low} to {other.high}", edits)
            break
    if len(sweep.moves) > 1:
        yield Mend(f'Take {move.control.name} out of "{sweep.name}"', (remove(where),))
    else:
        yield Mend(f'Take the sweep "{sweep.name}" out', (remove(sweep.address),))


def _is_fault(move: Move) -> bool:
    return move.control.kind in (ControlKind.TOGGLE_ANY, ControlKind.MOMENTARY)


def _trouble(move: Move) -> str | None:
    match move.control.kind:
        case ControlKind.TOGGLE_ANY | ControlKind.MOMENTARY:
            return "which flips or fires at every value it gets"
        case ControlKind.SWITCH:
            return "which only knows on and off: it switches in the middle of the travel"
        case ControlKind.STEPS | ControlKind.RANGE:
            pass
    if move.control.expression == "no":
        return "which its maker says not to sweep"
    if move.control.expression == "poor":
        return "which can be heard stepping when it is swept"
    return None


RULE = Rule(
    id=rule_id(__name__),
    title="A control unsuited to a pedal",
    severity=Severity.RISK,
    why=(
        "Some controls click, step or reload when they are moved; a switch only flips somewhere in "
        "mid travel. What can be set well cannot always be swept well."
    ),
    failing=board(
        DELAY, TO_DELAY, a_sweep("Swell", 'unit = "delay", control = "trails", heel = 0, toe = 127')
    ),
    passing=board(
        DELAY, TO_DELAY, a_sweep("Swell", 'unit = "delay", control = "mix", heel = 0, toe = 127')
    ),
    look_whole=_look,
)
