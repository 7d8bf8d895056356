"""What has to be tested again after the work, and why; what the work cannot have touched is not."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from thruline.compare.facts import Part
from thruline.compare.work import Kind, Task
from thruline.proof.case import Case
from thruline.rig.cable import Jack
from thruline.rig.socket import SocketKind
from thruline.rig.unit import outlet_of
from thruline.rig.whole import Rig
from thruline.timing.receive import Reception


class Look(StrEnum):
    """What kind of test it is, in the order of a power-up."""

    POWER = "power"
    SOUND = "sound"
    MIDI = "MIDI"
    PRESET = "preset"
    PEDAL = "pedal"


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """One thing to test: what kind, of what, and what must be seen."""

    look: Look
    whose: str
    says: str


def trials(old: Case, new: Case, tasks: Sequence[Task]) -> tuple[Trial, ...]:
    """All that the work may have touched, in the order of a power-up."""
    rig = new.rig
    entered = _entered(tasks)
    otherwise = _otherwise(old, new, entered)
    reached = _reached(old, new, tasks, otherwise=otherwise)
    found = [
        *_power(old.rig, rig, tasks=tasks),
        *_sound((old.rig, rig), tasks),
        *_midi(rig, reached),
    ]
    presets = _presets(rig, entered, reached, otherwise=otherwise)
    return (*found, *presets, *_pedals(rig, tasks))


def _entered(tasks: Sequence[Task]) -> frozenset[str]:
    """The numbers of presets of which more than the name is entered."""
    return frozenset(task.whose for task in tasks if task.kind is Kind.ENTER and _more(task))


def _otherwise(old: Case, new: Case, entered: Collection[str]) -> Mapping[int, frozenset[str]]:
    """For presets that stay as they are the units that now make something else of them."""
    found = {}
    for preset in new.rig.presets:
        before = old.rig.preset(preset.number)
        if before is None or str(preset.number) in entered:
            continue
        was, now = old.run(before).receptions, new.run(preset).receptions
        found[preset.number] = frozenset(
            unit for unit, made in now.items() if unit in was and not _same(was[unit], made)
        )
    return found


def _same(was: Reception, now: Reception) -> bool:
    return (was.program, was.values, was.flips) == (now.program, now.values, now.flips)


def _reached(
    old: Case, new: Case, tasks: Sequence[Task], *, otherwise: Mapping[int, Collection[str]]
) -> list[str]:
    """Units that messages now reach otherwise than before, or that were set or put on."""
    touched = {
        change.key.whose
        for task in tasks
        if task.kind in (Kind.PUT_ON, Kind.SET, Kind.OUTPUTS)
        for change in task.changes
    }.union(*otherwise.values())
    before, after = (_routes(case) for case in (old, new))
    return [
        unit.id
        for unit in new.rig.units.values()
        if unit.chart.listens and (unit.id in touched or before.get(unit.id) != after.get(unit.id))
    ]


def _routes(case: Case) -> Mapping[str, object]:
    """How messages from the controller come to each unit: cables and what passes them on."""
    rig = case.rig
    if rig.controller is None:
        return {}
    found: dict[str, list[object]] = {}
    for route in case.hearing.routes_from(rig.controller.id):
        if not case.board.routing.takes(route.target.unit, route):
            continue
        way = tuple(
            (hop.link.name, tuple(cable.joins for cable in hop.link.cables), hop.way)
            for hop in route.hops
        )
        found.setdefault(route.target.unit, []).append((way, route.blocks, route.certain))
    return found


def _power(old: Rig, rig: Rig, *, tasks: Sequence[Task]) -> Iterator[Trial]:
    for name in dict.fromkeys((*_fed(rig, tasks), *_fed_otherwise(old, rig))):
        unit = rig.units[name]
        need = unit.chart.power
        volts = f" ({need.millivolts / 1000:g} V)" if need else ""
        yield Trial(
            look=Look.POWER,
            whose=name,
            says=f"before {unit.name} is connected: voltage{volts}, plus and minus, AC or DC, "
            "with a meter at its plug",
        )


def _fed(rig: Rig, tasks: Sequence[Task]) -> Iterator[str]:
    """Units that get power over another lead than before, or are new."""
    for change in (one for task in tasks for one in task.changes if one.after is not None):
        if change.key.part is Part.CABLE:
            name, _, socket = change.key.which.partition("#")[0].partition(".")
            if _kind(rig, Jack(name, socket)) is SocketKind.POWER_IN:
                yield name
        elif change.key.part is Part.UNIT and rig.units[change.key.whose].chart.power is not None:
            yield change.key.whose


def _fed_otherwise(old: Rig, rig: Rig) -> Iterator[str]:
    """Units at an outlet that gives something else than before, as when its switch is set."""
    for cable in rig.cables:
        unit, socket = cable.start.unit, cable.start.socket
        if _kind(rig, cable.stop) is not SocketKind.POWER_IN or unit not in old.units:
            continue
        if outlet_of(old.units[unit], socket) != outlet_of(rig.units[unit], socket):
            yield cable.stop.unit


def _kind(rig: Rig, jack: Jack) -> SocketKind | None:
    unit = rig.units.get(jack.unit)
    socket = unit.chart.sockets.get(jack.socket) if unit else None
    return socket.kind if socket else None


def _sound(rigs: Sequence[Rig], tasks: Sequence[Task]) -> Iterator[Trial]:
    if any(task.kind is Kind.SOUND or _carries_sound(rigs, task) for task in tasks):
        says = "the sound from instrument to amplifier, quietly first, every loop in and out"
        yield Trial(look=Look.SOUND, whose="", says=says)


def _carries_sound(rigs: Sequence[Rig], task: Task) -> bool:
    """Whether a cable of it comes out of a socket for sound, in either revision."""
    for change in task.changes:
        if change.key.part is Part.CABLE:
            unit, _, socket = change.key.whose.partition(".")
            if any(_kind(rig, Jack(unit, socket)) is SocketKind.AUDIO_OUT for rig in rigs):
                return True
    return False


def _midi(rig: Rig, reached: Sequence[str]) -> Iterator[Trial]:
    for name in reached:
        unit = rig.units[name]
        for preset in rig.presets:
            goal = preset.goal_for(name)
            if goal is not None and goal.program is not None:
                says = f"{unit.name} hears: press {preset.title}, it shows {goal.program.label}"
                break
        else:
            channel = f" on channel {unit.channel}" if unit.channel else ""
            says = f"{unit.name} hears: send it something{channel} and look"
        yield Trial(look=Look.MIDI, whose=name, says=says)


def _presets(
    rig: Rig,
    entered: Collection[str],
    reached: Sequence[str],
    *,
    otherwise: Mapping[int, Collection[str]],
) -> Iterator[Trial]:
    """Presets that were entered anew; those that use what was touched, gathered by what it is."""
    alike: dict[str, list[str]] = {}
    for preset in rig.presets:
        changed = otherwise.get(preset.number, ())
        touched = [
            rig.units[one].name
            for one in reached
            if preset.goal_for(one) is not None or one in changed
        ]
        if str(preset.number) in entered:
            yield _preset(preset.number, f"press {preset.title}: it was entered anew")
        elif touched:
            alike.setdefault(", ".join(touched), []).append(str(preset.number))
    for units, numbers in alike.items():
        listed = ", ".join(numbers)
        yield Trial(look=Look.PRESET, whose=listed, says=f"press {listed}: look at {units}")


def _more(task: Task) -> bool:
    """Whether more of a preset is changed than what it is called."""
    before, after = task.changes[0].before, task.changes[0].after
    same = isinstance(before, tuple) and isinstance(after, tuple) and before[1:] == after[1:]
    return not same


def _preset(number: int, says: str) -> Trial:
    return Trial(look=Look.PRESET, whose=str(number), says=says)


def _pedals(rig: Rig, tasks: Sequence[Task]) -> Iterator[Trial]:
    for pedal in dict.fromkeys(task.whose for task in tasks if task.kind is Kind.PEDAL):
        name, _, socket = pedal.partition(".")
        unit = rig.units.get(name)
        marked = unit.chart.sockets[socket].marked if unit and socket in unit.chart.sockets else ""
        says = f"the pedal at {marked or socket}: heel to toe and back, on each of its presets"
        yield Trial(look=Look.PEDAL, whose=pedal, says=says)
