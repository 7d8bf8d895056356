"""A unit that takes no control changes, and is sent some."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_boards import a_cable, a_preset, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.refusals import refusals
from thruline.proof.rule import Rule, rule_id
from thruline.rig.chart import Governs
from thruline.rig.preset import Goal
from thruline.rig.unit import takes_control


def _look(case: Case) -> Iterator[Result]:
    return refusals(
        case,
        RULE,
        Governs.CONTROL_RECEIVE,
        takes=takes_control,
        wants=_wants,
        what="control changes",
    )


def _wants(goal: Goal) -> tuple[str, ...]:
    return tuple(one.control.id for one in goal.controls)


def _echo(value: str) -> str:
    settings = f'settings = {{ control-receive = "{value}" }}'
    return a_unit("echo", "laxton-echo", "channel = 5", settings)


_REST = (
    a_cable("feet.midi-out-1", "echo.midi-in"),
    a_preset(1, "Overture", 'echo = { program = "07", mix = 64 }'),
)

RULE = Rule(
    id=rule_id(__name__),
    title="Control changes refused",
    severity=Severity.FAULT,
    why=(
        "A menu item of the unit decides whether it takes control changes. When it is off, "
        "programs still change, and every value that a preset or a pedal sends is ignored."
    ),
    failing=board(_echo("no"), *_REST),
    passing=board(_echo("yes"), *_REST),
    look_whole=_look,
)
