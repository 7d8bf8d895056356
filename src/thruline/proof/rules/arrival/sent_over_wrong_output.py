"""A unit that is sent to over an output of the controller that does not lead to it."""

from collections.abc import Iterator

from thruline.base.edit import remove, set_to
from thruline.path.hearing import Heard
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import TO_DELAY, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.unit import Unit


def _look(case: Case) -> Iterator[Result]:
    controller = case.rig.controller
    if controller is None:
        return
    for unit in case.rig.units.values():
        said = None if unit is controller or unit.sent_over is None else _said(case, unit)
        if said is not None:
            says, leading = said
            field = unit.address.child("sent-over")
            yield RULE.finding(
                says,
                field,
                evidence=[
                    facts(
                        ("sent over", str(unit.sent_over)),
                        ("leads there", ", ".join(leading) or "no output"),
                    )
                ],
                mends=_mends(unit, leading),
            )


def _said(case: Case, unit: Unit) -> tuple[str, tuple[str, ...]] | None:
    """What is wrong with the output that a unit is sent over, and the outputs that lead to it."""
    controller, routing, over = case.rig.controller, case.board.routing, unit.sent_over
    if controller is None or over is None or not routing.chooses:
        return None
    leading = tuple(
        socket
        for socket in routing.outputs
        if case.hearing.hears(controller.id, unit.id, over=socket) is Heard.YES
    )
    if over not in routing.outputs:
        return f"{unit.name} is sent to over {over}, which {controller.name} does not have", leading
    heard = case.hearing.hears(controller.id, unit.id, over=over)
    if leading and heard is Heard.NO:
        return f"{over} of {controller.name} does not lead to {unit.name}", leading
    return None


def _mends(unit: Unit, leading: tuple[str, ...]) -> Iterator[Mend]:
    field = unit.address.child("sent-over")
    for socket in leading:
        yield Mend(f"Send to {unit.name} over {socket}", (set_to(field, socket),))
    if not leading:
        yield Mend(f"Leave open over which output {unit.name} is sent to", (remove(field),))


_RIGHT = a_unit("delay", "bramley-delay", "channel = 3", 'sent-over = "midi-out-1"')
_WRONG = a_unit("delay", "bramley-delay", "channel = 3", 'sent-over = "midi-out-2"')

RULE = Rule(
    id=rule_id(__name__),
    title="Sent over the wrong output",
    severity=Severity.FAULT,
    why=(
        "This controller sends a message over one of its outputs only. A unit behind another one "
        "hears nothing of it, and every cable on the way there is whole."
    ),
    failing=board(_WRONG, TO_DELAY, controller="pearmain-ten"),
    passing=board(_RIGHT, TO_DELAY, controller="pearmain-ten"),
    look_board=_look,
)
