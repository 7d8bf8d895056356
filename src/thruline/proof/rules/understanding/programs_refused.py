"""A unit that takes no program changes, and is sent some."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.example_boards import TO_DELAY, a_preset, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.refusals import refusals
from thruline.proof.rule import Rule, rule_id
from thruline.rig.chart import Governs
from thruline.rig.preset import Goal
from thruline.rig.unit import takes_program


def _look(case: Case) -> Iterator[Result]:
    return refusals(
        case,
        RULE,
        Governs.PROGRAM_RECEIVE,
        takes=takes_program,
        wants=_wants,
        what="program changes",
    )


def _wants(goal: Goal) -> tuple[str, ...]:
    return ("program",) if goal.program is not None else ()


def _delay(value: str) -> str:
    settings = f'settings = {{ program-receive = "{value}" }}'
    return a_unit("delay", "bramley-delay", "channel = 3", settings)


_PRESET = a_preset(1, "Overture", 'delay = { program = "2A" }')

RULE = Rule(
    id=rule_id(__name__),
    title="Program changes refused",
    severity=Severity.FAULT,
    why=(
        "A menu item of the unit decides whether it takes program changes. When it is off, control "
        "changes still work, which makes the cable look right and the controller look wrong."
    ),
    failing=board(_delay("off"), TO_DELAY, _PRESET),
    passing=board(_delay("on"), TO_DELAY, _PRESET),
    look_whole=_look,
)
