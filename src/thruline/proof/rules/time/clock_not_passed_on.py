"""A unit that follows timing clock, on a board with a clock that does not reach it."""

from collections.abc import Iterator

from thruline.path.hearing import Heard
from thruline.path.silence import why_silent
from thruline.proof.case import Case
from thruline.proof.clocks import CLOCK, clocks_heard
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_cable, a_unit
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Example, Rule, rule_id
from thruline.proof.silences import way_to
from thruline.rig.unit import Unit, takes_clock


def _look(case: Case) -> Iterator[Result]:
    for unit in case.rig.units.values():
        clocks = list(clocks_heard(case, unit))
        if not clocks or not takes_clock(unit) or not unit.chart.listens:
            continue
        if all(heard is Heard.NO for _, heard in clocks):
            source = clocks[0][0]
            # A unit that hears nothing at all is told of by the rules about arrival.
            if case.hearing.routes_to(unit.id):
                yield _found(case, unit, source)


def _found(case: Case, unit: Unit, source: Unit) -> Result:
    causes = why_silent(case.network, case.hearing, source=source.id, target=unit.id, status=CLOCK)
    return RULE.finding(
        f"{unit.name} is set to follow timing clock, and that of {source.name} does not reach it",
        unit.address,
        source.address,
        evidence=[way_to(case, cause) for cause in causes] or [facts(("clock from", source.name))],
    )


def _rig(way: str) -> Example:
    rows = (
        f'[[unit]]\nid = "feet"\nchart = "braeburn-six"\nsettings = {{ midi-out-1 = "{way}" }}\n',
        a_unit("tap", "cripps-clock", 'settings = { run = "on" }'),
        a_unit("delay", "bramley-delay", "channel = 3"),
        a_cable("tap.midi-out", "feet.midi-in", 'wiring = "type-a"', ends="trs-3.5/din5"),
        a_cable("feet.midi-out-1", "delay.midi-in"),
    )
    return Example("\n".join(rows))


RULE = Rule(
    id=rule_id(__name__),
    title="Clock that does not arrive",
    severity=Severity.RISK,
    why=(
        "The board has a clock and a unit that wants one, and something between them keeps it "
        "back: an output that sends only its own, or a filter. The unit's echoes keep their own "
        "time."
    ),
    failing=_rig("Own"),
    passing=_rig("Merge"),
    look_board=_look,
)
