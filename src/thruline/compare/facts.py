"""A board as a flat list of facts: everything about it that somebody has to make so by hand."""

from collections.abc import Iterator, Mapping
from enum import StrEnum
from typing import NamedTuple, TypeAlias, assert_never

from thruline.path.routing import Routing
from thruline.rig.cable import Cable
from thruline.rig.controller import Routing as Choice
from thruline.rig.sweep import Sweep
from thruline.rig.unit import Unit
from thruline.rig.values import NotUnderstood, Value
from thruline.rig.whole import Rig
from thruline.timing.sending import Sending


class Part(StrEnum):
    """What a fact is about, in the order of the work."""

    UNIT = "unit"
    """A unit is there, of this model."""
    PLACE = "place"
    """Where it stands."""
    CABLE = "cable"
    """A cable is plugged in, with these plugs, this wiring, this length."""
    SOUND = "sound"
    """What the sound goes through, in order."""
    CHANNEL = "channel"
    """The channel that is set on a unit."""
    SETTING = "setting"
    """A menu item of a unit."""
    OUTPUT = "output"
    """The output that a controller is told, once, for a unit."""
    MEMORY = "memory"
    """What the controller holds for a preset."""
    PEDAL = "pedal"
    """What a pedal moves."""
    SET = "set"
    """The songs of the night, in their order."""


class Key(NamedTuple):
    """What a fact is about: the part, whose, and which of it."""

    part: Part
    whose: str
    which: str = ""


Fact: TypeAlias = "str | int | tuple[Fact, ...] | None"
Facts: TypeAlias = Mapping[Key, Fact]


def facts_of(
    rig: Rig, routing: Routing, memory: Mapping[int, Fact], *, is_entered: bool = True
) -> dict[Key, Fact]:
    """Every fact of a board; `memory` gives for each preset what the controller holds.

    Pedals and outputs are entered in the controller as well; with `is_entered` False they are left
    out.
    """
    facts: dict[Key, Fact] = {}
    for unit in rig.units.values():
        facts.update(_unit_facts(unit))
    for cable in rig.cables:
        facts[Key(Part.CABLE, str(cable.start), str(cable.stop) + _nth(cable))] = cable_fact(cable)
    if rig.audio is not None:
        facts[Key(Part.SOUND, "")] = tuple(stage.written for stage in rig.audio.stages)
    facts.update({Key(Part.MEMORY, str(number)): held for number, held in memory.items()})
    if is_entered:
        facts.update(_told_once(rig, routing))
    for sweep in rig.sweeps if is_entered else ():
        for number in sweep.presets:
            key = Key(Part.PEDAL, str(sweep.pedal), str(number))
            facts[key] = (*_moves(facts.get(key)), *_sweep_facts(sweep, rig, routing))
    if rig.songs:
        facts[Key(Part.SET, "")] = tuple(
            (song.name, song.tempo, song.presets) for song in rig.songs
        )
    return facts


def without_exchanged(facts: Facts, after: Facts) -> dict[Key, Fact]:
    """Facts of the old board without what is set on boxes that others come in place of.

    Another box is as its factory left it, even where the old one was set to the same.
    """
    gone = {
        key.whose
        for key, model in facts.items()
        if key.part is Part.UNIT and key in after and after[key] != model
    }
    set_on_it = (Part.CHANNEL, Part.SETTING)
    return {
        key: fact
        for key, fact in facts.items()
        if key.part not in set_on_it or key.whose not in gone
    }


def _nth(cable: Cable) -> str:
    return f"#{cable.occurrence}" if cable.occurrence > 1 else ""


def _moves(fact: Fact) -> tuple[Fact, ...]:
    return fact if isinstance(fact, tuple) else ()


def _unit_facts(unit: Unit) -> Iterator[tuple[Key, Fact]]:
    yield Key(Part.UNIT, unit.id), unit.chart.id
    if unit.place is not None:
        yield Key(Part.PLACE, unit.id), (unit.place.x, unit.place.y, unit.place.turn)
    if unit.chart.channel is not None and unit.channel is not None:
        yield Key(Part.CHANNEL, unit.id), unit.channel
    for setting, value in unit.settings.items():
        yield Key(Part.SETTING, unit.id, setting), value


def _told_once(rig: Rig, routing: Routing) -> Iterator[tuple[Key, Fact]]:
    for unit, socket in routing.told_once(rig.units.values()).items():
        yield Key(Part.OUTPUT, unit), (rig.units[unit].sent_on, socket)


def goes_over(routing: Routing, unit: str | None) -> str:
    """What has to be said when something for a unit is entered: its output, or whose it is.

    Nothing where the controller sends everything over all of its outputs. What is for no unit
    leaves by all of them.
    """
    match routing.choice:
        case Choice.BY_MESSAGE:
            return routing.over.get(unit or "", "")
        case Choice.BY_UNIT:
            return unit or ""
        case Choice.ALL:
            return ""
        case _:
            assert_never(routing.choice)


def cable_fact(cable: Cable) -> Fact:
    """What a cable is, wherever it is plugged in: plugs, contacts joined, length."""
    return (cable.plugs, cable.joins, cable.length)


def _sweep_facts(sweep: Sweep, rig: Rig, routing: Routing) -> Iterator[Fact]:
    """What has to be entered for a sweep: channel, control, ends, curve, where it goes."""
    for move in sweep.moves:
        unit = rig.units.get(move.unit)
        yield (
            unit.sent_on if unit else None,
            move.control.number,
            _wire(move.heel),
            _wire(move.toe),
            (move.curve.name, move.curve.points),
            goes_over(routing, move.unit),
        )


def _wire(value: Value | NotUnderstood) -> Fact:
    return value.wire if isinstance(value, Value) else value.written


def memory_fact(name: str, sending: Sending, routing: Routing, *, loops: tuple[str, ...]) -> Fact:
    """What the controller holds for a preset: its name, its messages with pauses, its loops."""
    messages = tuple(
        (item.pause_us, item.data.hex(), goes_over(routing, item.unit)) for item in sending.items
    )
    return (name, messages, loops)
