"""Everything that can be tried on one rig, each with its cost where it is tried."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from types import MappingProxyType

from thruline.find.cable_suspects import called
from thruline.find.glances import glances
from thruline.find.habits import HABITS
from thruline.find.hearing import dump_comes, wants_dumps
from thruline.find.meant import Meant
from thruline.find.pedal_suspects import loops_in_use
from thruline.find.rig_edits import cable_key
from thruline.find.scene import AS_IT_STANDS, Plugged, Scene
from thruline.find.suspect import Suspect
from thruline.find.trials import Place, Trial
from thruline.midi.decode import decode
from thruline.midi.message import Message, ProgramChange
from thruline.midi.words import in_words
from thruline.proof.pedals import inputs_in_use
from thruline.proof.power_leads import power_leads, volts
from thruline.rig.cable import Cable
from thruline.rig.preset import Preset
from thruline.rig.unit import Unit, sends, takes_clock

PLACES = (Place.BENCH, Place.TELEPHONE, Place.STAGE)
A_UNIT_MORE = 1.0
"""Seconds that each further unit adds to a glance along the board."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One thing to try.

    `asks` says what to do; `answers` are ids and words, the first what a good board shows (of a
    glance there are none: its answer is those of its `units` that are not right). `unit` and
    `number` are what is looked at and the preset pressed, `scene` how it is plugged, `look` the
    name of a look at a thing itself. `seconds` is the cost, `sure` how often an answer is right.
    """

    id: str
    trial: Trial
    asks: str
    answers: Mapping[str, str]
    seconds: float
    sure: float
    unit: str = ""
    units: tuple[str, ...] = ()
    number: int = 0
    scene: Scene = AS_IT_STANDS
    look: str = ""
    caution: str = ""

    @property
    def good(self) -> str:
        """The answer that a good board gives to a look at a thing itself."""
        return next(iter(self.answers), "")


@dataclass(frozen=True, slots=True)
class _Desk:
    """What checks are made with: the rig, the place, and seconds of somebody’s own."""

    meant: Meant
    place: Place
    seconds: Mapping[str, float]
    looks: frozenset[str] = field(default_factory=frozenset)

    def check(
        self, trial: Trial, on: str, words: Mapping[str, str], **more: object
    ) -> Check | None:
        """A check, if it can be done here."""
        habit = HABITS[trial]
        cost = self.seconds.get(trial, habit.seconds[PLACES.index(self.place)])
        if cost is None:
            return None
        made = Check(
            id=f"{trial} {on}".strip(),
            trial=trial,
            asks=habit.asks.format_map(words),
            answers=habit.answers,
            seconds=cost,
            sure=habit.sure,
            caution=habit.caution,
            **more,  # type: ignore[arg-type]  # by the names of its fields
        )
        return replace(made, seconds=cost + A_UNIT_MORE * len(made.units)) if made.units else made

    def look(self, trial: Trial, on: str, words: Mapping[str, str], **more: object) -> Check | None:
        """A look at a thing itself, if some suspect would show there."""
        name = f"{trial} {on}".strip()
        return self.check(trial, on, words, look=name, **more) if name in self.looks else None


NO_SECONDS: Mapping[str, float] = MappingProxyType({})


def checks_for(
    meant: Meant,
    suspects: Iterable[Suspect],
    *,
    place: Place = Place.BENCH,
    seconds: Mapping[str, float] = NO_SECONDS,
) -> tuple[Check, ...]:
    """All checks of a rig. `seconds` puts other costs in place of the table’s, by kind of check."""
    looks = frozenset(name for one in suspects for name in one.shows)
    desk = _Desk(meant, place, seconds, looks)
    found = (
        *_presses(desk), *_cables(desk), *_units(desk), *_controller(desk), *_power(desk),
        *_pedals(desk), *_noise(desk),
    )  # fmt: skip
    return tuple(one for one in found if one is not None)


def _presses(desk: _Desk) -> Iterator[Check | None]:
    """Press something, and look."""
    meant = desk.meant
    glanced = meant.presses[:1] if meant.rig.controller is not None else ()
    for preset in glanced:
        yield from _glances(desk, preset)
    for name in meant.looked_at if glanced else ():
        for number in meant.pressed_for(name):
            yield from _of_press(desk, meant.rig.units[name], number)


def _glances(desk: _Desk, preset: Preset) -> Iterator[Check | None]:
    """Look along the whole board, and at some units of it."""
    whole, *some = glances(desk.meant, preset.number)
    words = {"preset": f"preset {preset.title}", "along": "along the whole board"}
    on = str(preset.number)
    yield desk.check(Trial.GLANCE, on, words, number=preset.number, units=whole)
    for units in some:
        *first, last = (desk.meant.rig.units[unit].name for unit in units)
        words = {**words, "along": f"at {', '.join(first)} and {last}"}
        here = f"{on} {'+'.join(units)}"
        yield desk.check(Trial.GLANCE, here, words, number=preset.number, units=units)


def _of_press(desk: _Desk, unit: Unit, number: int) -> Iterator[Check | None]:
    words = {
        "preset": _title(desk.meant, number),
        "unit": unit.name,
        "wants": _wants(desk.meant, unit, number),
    }
    on = f"{unit.id} {number}"
    at = {"unit": unit.id, "number": number}
    yield desk.check(Trial.LOOK, on, words, **at)
    yield desk.check(Trial.STRAIGHT, on, words, scene=Scene(Plugged.STRAIGHT_IN, unit.id), **at)
    yield desk.check(Trial.SEND, on, words, scene=Scene(Plugged.TOOL_IN, unit.id), **at)
    if number == desk.meant.pressed_for(unit.id)[0]:
        yield desk.check(Trial.REPEAT, on, words, **at)
        yield desk.check(Trial.LAMP, on, words, **at)
        yield desk.check(Trial.LISTEN, on, words, **at)


def _title(meant: Meant, number: int) -> str:
    preset: Preset | None = meant.rig.preset(number)
    return f"preset {preset.title}" if preset is not None else str(number)


def _wants(meant: Meant, unit: Unit, number: int) -> str:
    """What the preset wants of the unit, as a sentence after the question."""
    goal = meant.goals[number, unit.id]
    program = [f"program {goal.program.label}"] if goal.program else []
    values = [f"{one.control.name} {one.value.written}" for one in goal.controls]
    wanted = ", ".join([*program, *values])
    return f" It should show {wanted}." if wanted else ""


def _cables(desk: _Desk) -> Iterator[Check | None]:
    """Look at, test, wiggle and swap every lead that messages pass."""
    meant = desk.meant
    seen: set[str] = set()
    for link in meant.case.board.network.links:
        for cable in link.cables:
            key = cable_key(cable)
            if key in seen or link.carries is False:
                continue
            seen.add(key)
            words = _cable_words(desk, cable)
            yield desk.look(Trial.PLUG, key, words)
            yield desk.look(Trial.TESTER, key, words)
            yield desk.look(Trial.WIGGLE, key, words)
            unit = _first_behind(meant, link.stop.unit)
            if unit is not None:
                number = meant.pressed_for(unit)[0]
                words |= {"unit": meant.rig.units[unit].name, "preset": _title(meant, number)}
                scene = Scene(Plugged.CABLE_SWAPPED, key)
                yield desk.check(Trial.SWAP, key, words, unit=unit, number=number, scene=scene)


def _cable_words(desk: _Desk, cable: Cable) -> dict[str, str]:
    units = desk.meant.rig.units
    ends = []
    for jack in (cable.start, cable.stop):
        unit = units[jack.unit]
        ends.append(f"{unit.chart.sockets[jack.socket].marked or jack.socket} of {unit.name}")
    joins = ", ".join(f"{one} to {other}" for one, other in cable.joins)
    return {
        "cable": called(desk.meant.rig, cable), "start": ends[0], "stop": ends[1], "joins": joins
    }  # fmt: skip


def _first_behind(meant: Meant, unit: str) -> str | None:
    """The first unit behind a lead at which a press shows something."""
    waiting, seen = [unit], set()
    while waiting:
        here = waiting.pop(0)
        if here in seen:
            continue
        seen.add(here)
        if meant.pressed_for(here):
            return here
        leaving = meant.case.board.network.leaving
        for jack, links in leaving.items():
            if jack.unit == here:
                waiting += [link.stop.unit for link in links]
    return None


def _units(desk: _Desk) -> Iterator[Check | None]:
    """Read menus, try the unit by hand."""
    for unit in desk.meant.rig.units.values():
        words = {"unit": unit.name}
        yield desk.look(Trial.HAND, unit.id, words)
        yield desk.look(Trial.POWER, unit.id, words)
        rule = unit.chart.channel
        if rule is not None:
            where = f" ({rule.where})" if rule.where else ""
            channel = {**words, "where": where, "value": str(unit.channel)}
            yield desk.look(Trial.CHANNEL, unit.id, channel)
        for setting in unit.chart.settings.values():
            where = f" ({setting.where})" if setting.where else ""
            menu = {"menu": setting.name, "where": where, "value": unit.settings[setting.id]}
            yield desk.look(Trial.MENU, f"{unit.id}.{setting.id}", {**words, **menu})
        yield desk.look(Trial.NUMBERS, unit.id, words)
        yield desk.look(Trial.SOUND, unit.id, words)
        yield desk.look(Trial.IDENTITY, unit.id, words)
        for trial in _BY_COMPUTER_OR_EAR:
            yield desk.look(trial, unit.id, words)
        if _has_clock(desk.meant) and takes_clock(unit) and unit.chart.listens:
            yield desk.check(Trial.TEMPO, unit.id, words, unit=unit.id)
        if _may_be_held_back(desk.meant, unit):
            yield desk.check(Trial.DUMP, unit.id, words, unit=unit.id)


_BY_COMPUTER_OR_EAR = (
    Trial.CONTROLS, Trial.RAMP, Trial.STATUS, Trial.RELEASE, Trial.HOLD, Trial.CLOCKED, Trial.BOOT,
    Trial.BUFFER,
)  # fmt: skip
"""Looks at what a unit does with other things than presets, where some suspect would show there."""


def _may_be_held_back(meant: Meant, unit: Unit) -> bool:
    """Whether dumps are for a unit and come to it, over others that might hold them back."""
    controller, network = meant.rig.controller, meant.case.board.network
    if controller is None or not wants_dumps(unit):
        return False
    links = [one for jack in network.inputs_of(unit.id) for one in network.inputs[jack]]
    far = any(link.start.unit != controller.id for link in links)
    return far and dump_comes(meant.rig, network, unit.id)


def _has_clock(meant: Meant) -> bool:
    return any(sends(unit, "clock") for unit in meant.rig.units.values())


def _controller(desk: _Desk) -> Iterator[Check | None]:
    """Read what the controller holds."""
    meant = desk.meant
    for name in meant.looked_at:
        number = meant.pressed_for(name)[0]
        words = {
            "unit": meant.rig.units[name].name,
            "preset": _title(meant, number),
            "value": _messages(meant, name, number),
        }
        yield desk.look(Trial.ENTRY, name, words)
    for preset in meant.presses[:1]:
        for trial in (Trial.WRITTEN, Trial.PAGE, Trial.PAUSES):
            yield desk.look(trial, "", {"preset": f"preset {preset.title}"})


def _messages(meant: Meant, unit: str, number: int) -> str:
    """What a preset sends to a unit, in the numbers of the controller's own screen."""
    first = meant.rig.programs_from
    messages = [decode(item.data) for item in meant.sendings.get(number, ()) if item.unit == unit]
    says = "; ".join(_as_shown(one, first) for one in messages)
    counted = first and any(isinstance(one, ProgramChange) for one in messages)
    return f"{says} (its screen counts programs from {first})" if counted else says


def _as_shown(message: Message, first: int) -> str:
    """A message as the controller shows it, whose first program has the number `first`."""
    if isinstance(message, ProgramChange):
        return f"channel {message.channel}: program {message.program + first}"
    return in_words(message)


def _power(desk: _Desk) -> Iterator[Check | None]:
    """Look at the supply."""
    wanted = {
        lead.unit.id: f": {volts(lead.need.millivolts)} {lead.need.polarity or ''}".rstrip()
        for lead in power_leads(desk.meant.rig)
    }
    for unit in desk.meant.rig.units.values():
        words = {"unit": unit.name, "value": wanted.get(unit.id, "")}
        yield desk.look(Trial.SUPPLY, unit.id, words)
        yield desk.look(Trial.LOAD, unit.id, words)


def _pedals(desk: _Desk) -> Iterator[Check | None]:
    """Move pedals, try loops."""
    for unit, one, pedal in inputs_in_use(desk.meant.rig):
        on = f"{unit.id}.{one.socket}"
        yield desk.look(Trial.PEDAL, on, {"unit": pedal.name})
        yield desk.look(Trial.PEDAL_LEAD, on, {"unit": pedal.name})
    for unit, loop in loops_in_use(desk.meant.rig):
        words = {"unit": f"{loop} of {unit.name}"}
        yield desk.look(Trial.LOOP, f"{unit.id}.{loop}", words)
        yield desk.look(Trial.BRIDGE, f"{unit.id}.{loop}", words)


def _noise(desk: _Desk) -> Iterator[Check | None]:
    """Listen; and the computer’s own interface."""
    yield desk.look(Trial.NOISE, "", {})
    for unit in desk.meant.rig.units.values():
        for trial in (Trial.WHINE, Trial.HUM, Trial.USB_NOISE):
            yield desk.look(trial, unit.id, {"unit": unit.name})
    yield desk.look(Trial.LOOPBACK, "", {})
