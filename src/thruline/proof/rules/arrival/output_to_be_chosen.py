"""A unit that several outputs of the controller lead to, and none is said to be the one."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_cable, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.silences import addressed


def _look(case: Case) -> Iterator[Result]:
    routing, controller = case.board.routing, case.rig.controller
    if controller is None:
        return
    for unit in addressed(case):
        leading = routing.open_to.get(unit.id, ())
        if not leading:
            continue
        field = unit.address.child("sent-over")
        yield RULE.finding(
            f"{unit.name} can be reached over {' and '.join(leading)} of {controller.name}, "
            "and the rig does not say which of them its messages leave by",
            field,
            evidence=[facts(("taken here", leading[0]), ("also leads there", leading[1]))],
            mends=[
                Mend(f"Send to {unit.name} over {socket}", (set_to(field, socket),))
                for socket in leading
            ],
        )


def _rig(*rows: str) -> tuple[str, ...]:
    return (
        a_unit("merge", "kidd-merge"),
        a_unit("delay", "bramley-delay", "channel = 3", *rows),
        a_cable("feet.midi-out-1", "merge.in-1"),
        a_cable("feet.midi-out-2", "merge.in-2"),
        a_cable("merge.output", "delay.midi-in"),
        '[[preset]]\nnumber = 1\nname = "Overture"\ndelay = { mix = 40 }\n',
    )


RULE = Rule(
    id=rule_id(__name__),
    title="An output that has to be chosen",
    severity=Severity.RISK,
    why=(
        "This controller sends a message over one of its outputs. Where two of them lead to a "
        "unit, whoever programs it has to pick one, and everybody after that has to know which."
    ),
    failing=board(*_rig(), controller="pearmain-ten"),
    passing=board(*_rig('sent-over = "midi-out-2"'), controller="pearmain-ten"),
    look_whole=_look,
)
