"""A sweep that fills the line."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, a_sweep, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.proof.sweep_traffic import PERCENT, Traffic, busiest

HALF = 50
"""Percent of a line that pedals should leave to presets and clock."""


def _look(case: Case) -> Iterator[Result]:
    for traffic in busiest(case):
        controller = case.rig.units[traffic.jack.unit]
        if traffic.able.interval_ms is None:
            yield RULE.untold(
                f"how full {traffic.jack.socket} makes the line cannot be told",
                controller.address.child(traffic.jack.socket),
                lacks=f"interval-ms of pedal {traffic.jack.socket} in chart {controller.chart.id}",
            )
            continue
        percent = traffic.percent(traffic.able.interval_ms)
        if percent > HALF:
            names = " and ".join(f'"{sweep.name}"' for sweep in traffic.sweeps)
            yield RULE.finding(
                f"while the pedal moves, {names} fills {percent} % of the line on preset "
                f"{traffic.preset}",
                *(sweep.address for sweep in traffic.sweeps),
                evidence=[facts(*_rows(traffic, percent))],
                severity=Severity.FAULT if percent >= PERCENT else Severity.RISK,
            )


def _rows(traffic: Traffic, percent: int) -> Iterator[tuple[str, str]]:
    yield "controls moved", str(len(traffic.moves))
    yield "bytes for one new value of each", str(traffic.bytes_a_value)
    yield "a new value every", f"{traffic.able.interval_ms} ms"
    yield "line", f"{percent} % of 3125 bytes a second"


_MOVES = tuple(
    f'unit = "delay", control = "{control}", heel = 0, toe = 100'
    for control in ("mix", "repeats", "level", "division")
)
_PRESET = a_preset(1, "Overture", 'delay = { program = "2A" }')
_LONG = 'unit = "delay", control = "time", heel = 0, toe = 16000'

RULE = Rule(
    id=rule_id(__name__),
    title="A sweep that fills the line",
    severity=Severity.RISK,
    why=(
        "Every control that a pedal moves costs a message for each new value. When they fill the "
        "line, a preset change waits behind them, the clock stumbles, and the sweep itself lags."
    ),
    failing=board(DELAY, TO_DELAY, _PRESET, a_sweep("Swell", *_MOVES, _LONG)),
    passing=board(DELAY, TO_DELAY, _PRESET, a_sweep("Swell", _MOVES[0])),
    look_whole=_look,
)
