"""The controller addresses a unit on another channel than the unit is set to."""

from collections.abc import Iterator

from thruline.base.edit import remove, set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import TO_DELAY, a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.unit import Unit
from thruline.timing.receive import hears_channel


def _look(case: Case) -> Iterator[Result]:
    for unit in case.rig.units.values():
        if unit.sent_on is None or not unit.chart.listens or unit.channel is None:
            continue
        if hears_channel(unit, unit.sent_on) is False:
            channel, sent_on = unit.address.child("channel"), unit.address.child("sent-on")
            yield RULE.finding(
                f"{unit.name} is set to channel {unit.channel}, and the controller sends to it on "
                f"channel {unit.sent_on}",
                sent_on,
                channel,
                evidence=[
                    facts(
                        ("unit", f"channel {unit.channel}"),
                        ("controller", f"channel {unit.sent_on}"),
                    )
                ],
                mends=_mends(case, unit),
            )


def _mends(case: Case, unit: Unit) -> Iterator[Mend]:
    """Send on the unit's channel; or set the unit, if it can be and nobody else is there."""
    rule, wanted = unit.chart.channel, unit.sent_on
    channel, sent_on = unit.address.child("channel"), unit.address.child("sent-on")
    yield Mend(f"Send to {unit.name} on channel {unit.channel}", (remove(sent_on),))
    taken = {c for other in case.rig.units.values() if other is not unit for c in other.channels}
    if rule is not None and wanted in rule.allowed and wanted not in taken:
        says = f"Set {unit.name} to channel {wanted}"
        yield Mend(says, (set_to(channel, wanted), remove(sent_on)))


RULE = Rule(
    id=rule_id(__name__),
    title="Addressed on another channel",
    severity=Severity.FAULT,
    why=(
        "Unit and controller each have a channel setting, and the two must agree. When they are "
        "one apart, somebody counted from 0."
    ),
    failing=board(a_unit("delay", "bramley-delay", "channel = 3", "sent-on = 4"), TO_DELAY),
    passing=board(a_unit("delay", "bramley-delay", "channel = 3"), TO_DELAY),
    look_board=_look,
)
