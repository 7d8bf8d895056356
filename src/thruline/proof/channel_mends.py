"""Channels that a unit can be set to and that nobody else listens to, as mends."""

from collections.abc import Iterator

from thruline.base.edit import set_to
from thruline.proof.case import Case
from thruline.proof.finding import Mend
from thruline.rig.unit import Unit

MOST_CHANNELS = 16


def free_channel(case: Case, unit: Unit) -> Iterator[Mend]:
    """Set the unit to the first channel that is free, if there is one."""
    rule = unit.chart.channel
    if rule is None:
        return
    taken = {c for other in case.rig.units.values() if other is not unit for c in other.channels}
    for channel in sorted(rule.allowed, key=_factory_last):
        wanted = range(channel, channel + rule.occupies)
        if wanted[-1] <= MOST_CHANNELS and taken.isdisjoint(wanted):
            where = f" ({rule.where})" if rule.where else ""
            says = f"Set {unit.name} to channel {channel}, which is free{where}"
            yield Mend(says, (set_to(unit.address.child("channel"), channel),))
            return


def _factory_last(channel: int) -> tuple[bool, int]:
    """Channel 1 last: a unit that is reset to its factory settings falls back on it."""
    return channel == 1, channel
