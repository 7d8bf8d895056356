"""Two units that hear the same messages on the same channel."""

from collections.abc import Iterator
from itertools import combinations

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Example, Rule, rule_id
from thruline.rig.chart import ChannelRule
from thruline.rig.unit import Unit

_RIG = """
[[unit]]
id = "feet"
chart = "braeburn-six"

[[unit]]
id = "delay"
chart = "bramley-delay"
channel = 3

[[unit]]
id = "reverb"
chart = "pippin-reverb"
channel = {channel}

[[cable]]
from = "feet.midi-out-1"
to = "delay.midi-in"
ends = "din5/din5"

[[cable]]
from = "delay.midi-thru"
to = "reverb.midi-in"
ends = "din5/trs-3.5"
wiring = "type-a"
"""


def _look(case: Case) -> Iterator[Result]:
    heard = [unit for unit in case.rig.units.values() if unit.channels and _is_heard(case, unit)]
    for first, second in combinations(heard, 2):
        shared = sorted(set(first.channels) & set(second.channels))
        if shared:
            yield RULE.finding(
                f"{first.name} and {second.name} both listen to channel {shared[0]}: "
                "what is meant for one also changes the other",
                second.address.child("channel"),
                first.address.child("channel"),
                evidence=[
                    facts(
                        (first.name, f"channel {_span(first)}"),
                        (second.name, f"channel {_span(second)}"),
                    )
                ],
                mends=_mends(case, second),
            )


def _is_heard(case: Case, unit: Unit) -> bool:
    return bool(case.hearing.routes_to(unit.id))


def _span(unit: Unit) -> str:
    first, last = unit.channels[0], unit.channels[-1]
    return str(first) if first == last else f"{first} to {last}"


def _mends(case: Case, unit: Unit) -> Iterator[Mend]:
    """The first free channel that the unit can be set to."""
    rule = unit.chart.channel
    taken = {c for other in case.rig.units.values() if other is not unit for c in other.channels}
    if rule is None:
        return
    for channel in sorted(rule.allowed, key=_factory_last):
        wanted = range(channel, channel + rule.occupies)
        if wanted[-1] <= 16 and taken.isdisjoint(wanted):
            edits = (set_to(unit.address.child("channel"), channel),)
            yield Mend(f"Set {unit.name} to channel {channel}, which is free{_where(rule)}", edits)
            return


def _factory_last(channel: int) -> tuple[bool, int]:
    """Channel 1 last: a unit that is reset to its factory settings falls back on it."""
    return channel == 1, channel


def _where(rule: ChannelRule | None) -> str:
    return f" ({rule.where})" if rule and rule.where else ""


RULE = Rule(
    id=rule_id(__name__),
    title="Two units on a channel",
    severity=Severity.FAULT,
    why=(
        "A channel is an address. Two units that share one both act on every program change and "
        "every control change sent to either, and neither can be told anything alone."
    ),
    failing=Example(_RIG.format(channel=3)),
    passing=Example(_RIG.format(channel=4)),
    look_board=_look,
)
