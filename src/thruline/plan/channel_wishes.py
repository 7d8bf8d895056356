"""What the units of a rig want of a channel plan, and which of them share a line."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from thruline.base.errors import CannotUse
from thruline.path.parts import parts_of
from thruline.plan.channels import CHANNELS, ChannelWish, Slot
from thruline.rig.chart import Governs
from thruline.rig.nearest import nearest
from thruline.rig.unit import Unit, is_omni, setting_for, takes_control, takes_program
from thruline.rig.whole import Rig

FIRST = 2
"""Where the order of the sound begins; channel 1 is what most units fall back on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outputs:
    """The outputs of a controller that chooses one for each message or unit.

    `heard` gives for a unit those that it hears, `over` the one by which it is addressed now.
    """

    sockets: tuple[str, ...] = ()
    heard: Mapping[str, Collection[str]] = field(default_factory=lambda: MappingProxyType({}))
    over: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))

    def line_of(self, socket: str) -> int:
        """The line of an output; those of parts of the board, of which there are any, are above."""
        return -1 - self.sockets.index(socket)

    def socket_of(self, line: int) -> str | None:
        """The output of a line, if it is that of one; the inverse of `line_of`."""
        return self.sockets[-1 - line] if line < 0 else None


ALIKE = Outputs()
"""Every message goes over every output."""


def channel_wishes(
    rig: Rig, pinned: Mapping[str, int], outputs: Outputs = ALIKE
) -> tuple[ChannelWish, ...]:
    """Every unit that listens to a channel. `pinned` units get the channel that is given.

    A unit can be sent over any of the `outputs` that it hears, and hears what is sent to others
    over these.

    Raises CannotUse for a pinned unit that is not there, takes no channel, or not this one.
    """
    units = [unit for unit in rig.units.values() if unit.chart.listens]
    for name, channel in pinned.items():
        _look_at_wish(units, name, channel)
    parts = parts_of(rig)
    lines = {unit.id: _lines(unit.id, parts[unit.id], outputs) for unit in units}
    wishes = [_wish(unit, lines[unit.id], pinned.get(unit.id)) for unit in units]
    ideal = {name: Slot(lines[name][0], channel) for name, channel in _walk(rig, wishes)}
    way = rig.audio.units if rig.audio else ()
    return tuple(replace(one, ideal=ideal[one.id], in_sound=one.id in way) for one in wishes)


def _lines(name: str, part: int, outputs: Outputs) -> tuple[int, ...]:
    """The lines that a unit can be sent over, the present one first: its part if it hears none."""
    heard = [one for one in outputs.sockets if one in outputs.heard.get(name, ())]
    heard.sort(key=lambda one: one != outputs.over.get(name))
    return tuple(map(outputs.line_of, heard)) or (part,)


def omni_off(unit: Unit) -> tuple[str, str] | None:
    """The setting and its value that keep the unit from hearing every channel, if it has one."""
    setting = setting_for(unit, Governs.OMNI)
    for value in setting.values if setting else ():
        if setting and setting.means.get(value, value) == "off":
            return setting.id, value
    return None


def _look_at_wish(units: Sequence[Unit], name: str, channel: int) -> None:
    unit = next((one for one in units if one.id == name), None)
    if unit is None or unit.chart.channel is None:
        meant = nearest(name, [one.id for one in units])
        hint = f'; did you mean "{meant}"?' if meant else ""
        raise CannotUse(f'no unit "{name}" listens to a channel{hint}')
    if channel not in unit.chart.channel.allowed:
        allowed = ", ".join(map(str, unit.chart.channel.allowed))
        raise CannotUse(
            f"{unit.name} cannot be set to channel {channel}; it can be set to {allowed}"
        )


def _wish(unit: Unit, lines: tuple[int, ...], pinned: int | None) -> ChannelWish:
    rule = unit.chart.channel
    allowed = rule.allowed if rule else ()
    return ChannelWish(
        id=unit.id,
        width=rule.occupies if rule else 1,
        channels=allowed if pinned is None else (pinned,),
        lines=lines,
        hears=frozenset(lines if len(lines) > 1 else ()),
        now=None if unit.channel is None else Slot(lines[0], unit.channel),
        omni=is_omni(unit) is not False and omni_off(unit) is None,
        kinds=frozenset(_kinds(unit)),
        is_settled=rule is None or unit.channel != rule.factory,
    )


def _kinds(unit: Unit) -> Iterator[str]:
    """Kinds of channel message that it may act on; what a chart does not say may be."""
    if takes_program(unit) is not False:
        yield "program changes"
    if takes_control(unit) is not False:
        yield "control changes"
    if unit.chart.receives.note is not False:
        yield "notes"


def in_order_of_sound(rig: Rig, names: Sequence[str]) -> list[str]:
    """Units in the order in which the sound meets them; what is not on its way comes last."""
    way = rig.audio.units if rig.audio else ()
    place = {name: number for number, name in reversed(list(enumerate(way)))}
    return sorted(names, key=lambda name: place.get(name, len(way)))


def _walk(rig: Rig, wishes: Sequence[ChannelWish]) -> Iterator[tuple[str, int]]:
    """For each unit the channel next to that of the unit before it in the sound.

    A unit that somebody has set stays where it is, and those behind it follow from there.
    """
    by_id = {one.id: one for one in wishes}
    onward: dict[int, int] = {}
    for name in in_order_of_sound(rig, list(by_id)):
        one = by_id[name]
        channel = onward.get(one.lines[0], FIRST)
        if one.now is not None and one.is_settled:
            channel = one.now.channel
        yield name, min(channel, CHANNELS)
        onward[one.lines[0]] = channel + one.width if channel + one.width <= CHANNELS else FIRST
