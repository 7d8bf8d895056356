"""A unit that is taken to be on its factory channel, because the rig does not say."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import TO_DELAY, a_preset, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.unit import Unit


def _look(case: Case) -> Iterator[Result]:
    for unit in case.rig.units.values():
        channel = _taken(unit)
        if channel is None or unit.id not in case.addressed:
            continue
        where = unit.address.child("channel")
        mend = f"Write that {unit.name} is on channel {channel}, after a look at it"
        yield RULE.finding(
            f"{unit.name} is taken to be on channel {channel}, as it left the factory: the rig "
            "does not say",
            where,
            evidence=[facts(("the chart", f"factory channel {channel}"))],
            mends=[Mend(mend, (set_to(where, channel),))],
        )


def _taken(unit: Unit) -> int | None:
    """The factory channel that it is taken to be on; None where it is written or has no choice."""
    rule = unit.chart.channel
    several = rule is not None and len(rule.allowed) > 1
    return unit.channel if several and not unit.channel_written else None


_PRESET = a_preset(1, "Overture", 'delay = "2A"')

RULE = Rule(
    id=rule_id(__name__),
    title="On its factory channel, it is thought",
    severity=Severity.ADVICE,
    why=(
        "Everything is proved as if nobody had ever changed the unit's channel. On a unit that has "
        "been on another board that is often wrong, and then it hears nothing, or what is meant "
        "for a neighbour. Look at the unit, and write its channel down."
    ),
    failing=board(a_unit("delay", "bramley-delay"), TO_DELAY, _PRESET),
    passing=board(a_unit("delay", "bramley-delay", "channel = 1"), TO_DELAY, _PRESET),
    look_whole=_look,
)
