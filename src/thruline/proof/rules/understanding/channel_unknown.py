"""A unit of which neither the rig nor its chart gives the channel."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.channel_mends import free_channel
from thruline.proof.evidence import facts
from thruline.proof.example_boards import TO_DELAY, a_preset, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.unit import Unit, is_omni


def _look(case: Case) -> Iterator[Result]:
    for unit in case.rig.units.values():
        if unit.channel is not None:
            continue
        if unit.sent_on is None and unit.id in case.addressed:
            chart = "no factory channel" if unit.chart.listens else "no channel at all"
            yield RULE.finding(
                f"{unit.name} has no channel: the rig writes none and its chart gives {chart}; "
                "so nothing is sent to it",
                unit.address.child("channel"),
                evidence=[facts(("the rig", "no channel"), ("the chart", chart))],
                mends=free_channel(case, unit),
            )
        elif unit.chart.listens and _may_obey(case, unit):
            lacks = f"channel of unit {unit.id}; or channel.factory in chart {unit.chart.id}"
            says = f"which of the messages that reach {unit.name} are for it cannot be told"
            yield RULE.untold(says, unit.address.child("channel"), lacks=lacks)


def _may_obey(case: Case, unit: Unit) -> bool:
    """Whether messages reach it, of which its channel decides what it obeys."""
    return is_omni(unit) is not True and bool(case.hearing.routes_to(unit.id))


_CHART = """format = 1
[chart]
id = "costard-tone"
maker = "Costard"
model = "Tone"
kind = "effect"

[channel]
omni = "never"

[receive]
program = false
control = true
clock = false

[[socket]]
id = "midi-in"
kind = "midi-in"
connector = "din5"
isolated = true

[[control]]
id = "tone"
name = "Tone"
number = 20
stored = false
power-up = 0
"""
_TO = TO_DELAY.replace("delay.", "tone.")
_PRESET = a_preset(1, "Overture", "tone = { tone = 64 }")

RULE = Rule(
    id=rule_id(__name__),
    title="No channel is known",
    severity=Severity.FAULT,
    why=(
        "A channel is an address. Without it the controller cannot be programmed to send anything "
        "to the unit, and what a preset wants of it is left out. Read the channel off the unit and "
        "write it down."
    ),
    failing=board(a_unit("tone", "costard-tone"), _TO, _PRESET, charts=(_CHART,)),
    passing=board(a_unit("tone", "costard-tone", "channel = 3"), _TO, _PRESET, charts=(_CHART,)),
    look_whole=_look,
)
