"""A board as if each of its units had a channel to itself.

How long a control must wait for its unit is found on such a board: two units on one channel are a
mistake most of the time, and then no order should depend on it. So it is also the same before a
unit is moved to another channel and after.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from thruline.rig.unit import Unit
from thruline.timing.network import Feed, Network, Output
from thruline.timing.receive import Listener, hears_channel
from thruline.timing.statuses import FIRST_SYSTEM, Statuses

CHANNELS = 16
"""Of one MIDI line (MIDI 1.0)."""


def units_apart(units: Mapping[str, Unit], lines: Network) -> Mapping[str, Unit] | None:
    """The units with channels of their own, one after the other as they stand on the board.

    None when there are more than channels, or when an output stops some channels and passes others
    on: then the channels make a difference.
    """
    if any(_by_channel(feed.blocks) for feed in _feeds(lines)):
        return None
    moved = {}
    first = 1
    for unit in units.values():
        if unit.channel is None and unit.sent_on is None:
            moved[unit.id] = unit
            continue
        moved[unit.id] = replace(
            unit,
            channel=None if unit.channel is None else first,
            sent_on=None if unit.sent_on is None else first,
        )
        first += max(1, len(unit.channels))
    return moved if first <= CHANNELS + 1 else None


def hear_alike(ones: Mapping[str, Unit], others: Mapping[str, Unit]) -> bool:
    """Whether the same units hear what is sent to the same units, each on a channel of its own."""
    sent = [unit.id for unit in ones.values() if unit.sent_on is not None]
    if len({ones[name].sent_on for name in sent}) < len(sent):
        return False
    return all(
        _hears(ones[ear], ones[name]) is _hears(others[ear], others[name])
        for ear in ones
        for name in sent
    )


def nature_of(listener: Listener) -> object:
    """All of a unit that decides what it makes of its own messages, whatever its channel is.

    The chart by its identity: whoever keeps this has to keep the unit.
    """
    unit = listener.unit
    settings = tuple(unit.settings.items())
    return unit.id, id(unit.chart), settings, unit.channel is None, unit.sent_on is None


def _hears(ear: Unit, spoken_to: Unit) -> bool | None:
    return None if spoken_to.sent_on is None else hears_channel(ear, spoken_to.sent_on)


def _feeds(lines: Network) -> Iterable[Feed]:
    return (feed for line in lines.lines if isinstance(line, Output) for feed in line.feeds)


def _by_channel(blocks: Statuses) -> bool:
    """Whether some channels of a kind of message are stopped, and others are not."""
    kinds = range(0x80, FIRST_SYSTEM, CHANNELS)
    return any(
        0 < sum(status in blocks for status in range(kind, kind + CHANNELS)) < CHANNELS
        for kind in kinds
    )
