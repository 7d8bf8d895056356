"""What the units of a rig want of a channel plan, and which of them share a line."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace
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


def channel_wishes(
    rig: Rig, pinned: Mapping[str, int], heard: Mapping[str, Collection[str]] = MappingProxyType({})
) -> tuple[ChannelWish, ...]:
    """Every unit that listens to a channel. `pinned` units get the channel that is given.

    `heard` gives for a unit the outputs of the controller that it hears, where that chooses one for
    each message: then units that hear none in common share no line.

    Raises CannotUse for a pinned unit that is not there, takes no channel, or not this one.
    """
    units = [unit for unit in rig.units.values() if unit.chart.listens]
    for name, channel in pinned.items():
        _look_at_wish(units, name, channel)
    lines = _apart(parts_of(rig), heard)
    wishes = [_wish(unit, lines[unit.id], pinned.get(unit.id)) for unit in units]
    ideal = {name: Slot(lines[name], channel) for name, channel in _walk(rig, wishes)}
    return tuple(replace(one, ideal=ideal[one.id]) for one in wishes)


def _apart(parts: Mapping[str, int], heard: Mapping[str, Collection[str]]) -> dict[str, int]:
    """The parts of a board, those apart that hear different outputs of the controller.

    Outputs that any unit hears together are one line. A unit that hears none stays with the part.
    """
    groups: list[set[str]] = []
    for outputs in heard.values():
        together = set(outputs).union(*(one for one in groups if one & set(outputs)))
        groups = [one for one in groups if not one & together] + ([together] if together else [])
    line_of = {output: number for number, one in enumerate(groups) for output in one}
    first = max(parts.values(), default=0) + 1
    lines = dict(parts)
    for name, outputs in heard.items():
        if outputs and (line := line_of[min(outputs)]):
            lines[name] = first + line - 1
    return lines


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


def _wish(unit: Unit, line: int, pinned: int | None) -> ChannelWish:
    rule = unit.chart.channel
    allowed = rule.allowed if rule else ()
    return ChannelWish(
        id=unit.id,
        width=rule.occupies if rule else 1,
        channels=allowed if pinned is None else (pinned,),
        lines=(line,),
        now=None if unit.channel is None else Slot(line, unit.channel),
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
    onward: dict[tuple[int, ...], int] = {}
    for name in in_order_of_sound(rig, list(by_id)):
        one = by_id[name]
        channel = onward.get(one.lines, FIRST)
        if one.now is not None and one.is_settled:
            channel = one.now.channel
        yield name, min(channel, CHANNELS)
        onward[one.lines] = channel + one.width if channel + one.width <= CHANNELS else FIRST
