"""A sweep that sends values faster than a unit can follow."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_cable, a_sweep, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.pedals import input_of
from thruline.proof.rule import Rule, rule_id


def _look(case: Case) -> Iterator[Result]:
    for sweep in case.rig.sweeps:
        able = input_of(case.rig, sweep)
        if able is None or able.interval_ms is None:
            continue
        for move in sweep.moves:
            unit = case.rig.units[move.unit]
            bears, rate = unit.chart.receives.longest_rate, 1000 // able.interval_ms
            if bears is not None and rate > bears:
                yield RULE.finding(
                    f'sweep "{sweep.name}" sends {unit.name} {rate} values a second; it follows '
                    f"{bears}",
                    sweep.address_of(move),
                    evidence=[
                        facts(
                            ("controller", f"a value every {able.interval_ms} ms"),
                            (unit.name, f"{bears} control changes a second"),
                        )
                    ],
                )


_LIGHTS = a_unit("lights", "discovery-lights", "channel = 16", 'settings = { omni = "One" }')
_LEVEL = a_unit("level", "winston-level", "channel = 7")

RULE = Rule(
    id=rule_id(__name__),
    title="A sweep too fast for its unit",
    severity=Severity.RISK,
    why=(
        "The unit needs some time for each value. Sent faster, values pile up in it: it goes on "
        "moving after the foot has stopped, or skips and sticks."
    ),
    failing=board(
        _LIGHTS,
        a_cable("feet.midi-out-1", "lights.midi-in"),
        a_sweep("Dim", 'unit = "lights", control = "master", heel = 0, toe = 127'),
    ),
    passing=board(
        _LEVEL,
        a_cable("feet.midi-out-1", "level.midi-in"),
        a_sweep("Dim", 'unit = "level", control = "level", heel = 0, toe = 127'),
    ),
    look_whole=_look,
)
