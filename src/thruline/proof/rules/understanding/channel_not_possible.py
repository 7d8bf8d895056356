"""A channel that the unit cannot be set to."""

from collections.abc import Iterator

from thruline.proof.case import Case
from thruline.proof.channel_mends import free_channel
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_cable, a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.spans import spans


def _look(case: Case) -> Iterator[Result]:
    for unit in case.rig.units.values():
        rule = unit.chart.channel
        if rule is None or unit.channel is None:
            continue
        beyond = unit.channel + rule.occupies - 1 > 16
        if unit.channel not in rule.allowed or beyond:
            yield RULE.finding(
                f"{unit.name} cannot be set to channel {unit.channel}; it can be set to "
                f"{spans(rule.allowed)}",
                unit.address.child("channel"),
                evidence=[
                    facts(
                        ("allowed", spans(rule.allowed)), ("channels it takes", str(rule.occupies))
                    )
                ],
                mends=free_channel(case, unit),
            )


_TO = a_cable("feet.midi-out-1", "echo.midi-in")

RULE = Rule(
    id=rule_id(__name__),
    title="A channel that the unit does not have",
    severity=Severity.FAULT,
    why=(
        "Some units offer only a few channels, or take several in a row. The plan gives this one a "
        "channel that its switches or menu do not offer."
    ),
    failing=board(a_unit("echo", "laxton-echo", "channel = 12"), _TO),
    passing=board(a_unit("echo", "laxton-echo", "channel = 8"), _TO),
    look_board=_look,
)
