"""A worn pedal that does not reach its ends, on an input that cannot learn them."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_cable, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.pedals import inputs_in_use
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    for unit, one, pedal in inputs_in_use(case.rig):
        built = pedal.chart.expression
        if built is None:
            continue
        short = not one.calibrates and (built.lowest > 0 or built.highest < 127)
        if short or built.flicker > 0:
            yield RULE.finding(
                f"{pedal.name} "
                f"{_trouble(built.lowest, built.highest, built.flicker, short=short)} on "
                f"{unit.name} {one.socket}",
                pedal.address,
                unit.address.child("pedal", one.socket),
                evidence=[
                    facts(
                        (pedal.name, f"{built.lowest} to {built.highest}, wanders {built.flicker}"),
                        (f"{unit.name} {one.socket}", _learns(calibrates=one.calibrates)),
                    )
                ],
            )


def _trouble(lowest: int, highest: int, flicker: int, *, short: bool) -> str:
    parts = []
    if short:
        parts.append(f"reaches only {lowest} to {highest}")
    if flicker:
        parts.append(f"wanders by {flicker} steps at rest and keeps the line busy")
    return " and ".join(parts)


def _learns(*, calibrates: bool) -> str:
    return "learns the ends of a pedal" if calibrates else "takes a pedal as it is"


RULE = Rule(
    id=rule_id(__name__),
    title="A worn pedal",
    severity=Severity.RISK,
    why=(
        "A worn or badly set pedal stops short of heel or toe, so silence is not quite silent and "
        "full is not quite full, and a dirty track sends values when nobody moves it. Calibrate "
        "it where the controller can, clean or replace the track, or widen the sweep."
    ),
    failing=board(
        a_unit("treadle", "costard-treadle"),
        a_cable("treadle.output", "feet.exp", ends="trs-6.35/trs-6.35"),
        controller="quarrenden-three",
    ),
    passing=board(
        a_unit("treadle", "ribston-treadle"),
        a_cable("treadle.output", "feet.exp", ends="trs-6.35/trs-6.35"),
        controller="quarrenden-three",
    ),
    look_board=_look,
)
