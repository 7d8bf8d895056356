"""A filter on the way to a unit that holds back what presets send to it."""

from collections.abc import Iterator

from thruline.path.hearing import Heard
from thruline.path.silence import why_silent
from thruline.proof.case import Case
from thruline.proof.example_boards import a_cable, a_preset, a_unit, board
from thruline.proof.example_charts import a_box
from thruline.proof.finding import Finding, Result, Severity
from thruline.proof.rule import Example, Rule, rule_id
from thruline.proof.silences import addressed, way_to
from thruline.rig.unit import Unit

KINDS = ((0xC0, "program changes"), (0xB0, "control changes"))


def _look(case: Case) -> Iterator[Result]:
    controller = case.rig.controller
    if controller is None:
        return
    for unit in addressed(case):
        over = case.board.routing.over.get(unit.id)
        heard = case.hearing.hears(controller.id, unit.id, over=over)
        if heard is not Heard.YES or unit.sent_on is None:
            continue
        held_back = [
            (kind | (unit.sent_on - 1), words)
            for kind, words in KINDS
            if _is_held_back(case, controller, unit, status=kind | (unit.sent_on - 1))
        ]
        if held_back:
            yield _finding(case, controller, unit, held_back)


def _finding(case: Case, controller: Unit, unit: Unit, held_back: list[tuple[int, str]]) -> Finding:
    causes = [
        cause
        for status, _ in held_back
        for cause in why_silent(
            case.network,
            case.hearing,
            source=controller.id,
            target=unit.id,
            status=status,
            over=case.board.routing.over.get(unit.id),
        )
    ]
    boxes = dict.fromkeys(case.rig.units[cause.unit].address for cause in causes)
    return RULE.finding(
        f"{' and '.join(words for _, words in held_back)} for {unit.name} are held back on the way",
        unit.address,
        *boxes,
        evidence=dict.fromkeys(way_to(case, cause) for cause in causes),
    )


def _is_held_back(case: Case, controller: Unit, unit: Unit, *, status: int) -> bool:
    over = case.board.routing.over.get(unit.id)
    heard = case.hearing.hears(controller.id, unit.id, status=status, over=over)
    return heard is Heard.NO and _is_sent(case, unit, status)


def _is_sent(case: Case, unit: Unit, status: int) -> bool:
    return any(
        item.data[0] == status and item.unit == unit.id
        for run in case.runs()
        for item in run.sending.items
    )


def _rig(blocked: str) -> Example:
    about = "An invented box that holds back some kinds of message."
    return board(
        a_unit("box", "sieve"),
        a_unit("delay", "bramley-delay", "channel = 3"),
        a_cable("feet.midi-out-1", "box.midi-in"),
        a_cable("box.midi-out", "delay.midi-in"),
        a_preset(1, "Overture", "delay = { mix = 40 }"),
        charts=(a_box("sieve", f'blocks = ["{blocked}"]', kind="MIDI filter", about=about),),
    )


RULE = Rule(
    id=rule_id(__name__),
    title="Messages held back on the way",
    severity=Severity.FAULT,
    why=(
        "A box on the line passes some kinds of message and not others. What is held back never "
        "reaches the units behind it, while everything else works, which misleads."
    ),
    failing=_rig("control"),
    passing=_rig("clock"),
    look_whole=_look,
)
