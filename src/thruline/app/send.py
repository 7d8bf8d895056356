"""A preset or a sweep sent from here, as the controller would: messages, and what then shows."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from itertools import compress

from thruline.app.load import pick_preset
from thruline.base.errors import CannotUse
from thruline.bench.send import Planned, planned
from thruline.compose.goals import goals_by_unit
from thruline.compose.jobs import Effort
from thruline.compose.meaning import Meaning, meanings
from thruline.proof.case import Case
from thruline.proof.working import Worked, work_out
from thruline.rig.nearest import nearest
from thruline.rig.preset import Preset
from thruline.rig.programs import wire_to_label
from thruline.rig.sweep import Sweep
from thruline.rig.unit import Unit
from thruline.rig.values import shown
from thruline.timing.fate import Fate
from thruline.timing.receive import Reception
from thruline.timing.run import Hand, Run, run_one
from thruline.timing.sending import Sending

CAUTION = (
    "Before the first message: turn amplifiers and headphones down. A preset may be far louder "
    "than the one before, and a sweep may pass through its loudest place. Start quiet, bring the "
    "level up by ear, and keep ears away from what you have not heard yet."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shows:
    """What one unit must show after the messages; `trouble` are fates that are not good."""

    unit: Unit
    program: str
    controls: tuple[tuple[str, str], ...]
    trouble: tuple[str, ...]

    @property
    def says(self) -> str:
        """One sentence for the person in front of the unit."""
        parts = [f"program {self.program}"] if self.program else []
        parts += [f"{name} {value}" for name, value in self.controls]
        shows = f"now shows {', '.join(parts)}" if parts else "shows what it did before"
        doubts = f" (but: {'; '.join(self.trouble)})" if self.trouble else ""
        return f"{self.unit.name} {shows}{doubts}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """Messages that go out in one go, in words, and what the units then show."""

    title: str
    messages: tuple[Planned, ...]
    meanings: tuple[Meaning, ...]
    shows: tuple[Shows, ...]


def preset_step(case: Case, number: int, *, overs: Collection[str] = ()) -> Step:
    """All messages that fulfil a preset, as they were composed, in one go.

    `overs` leaves those that the controller sends over these outputs (see `look_at_outputs`).

    Raises CannotUse when there is no such preset, or nothing to send it from.
    """
    preset = pick_preset(case.rig, number)
    sending = case.composed(preset).sending
    return _step(case, preset, sending, title=f"preset {preset.title}", overs=overs)


def unit_steps(case: Case, number: int, *, overs: Collection[str] = ()) -> Iterator[Step]:
    """A preset unit by unit in the order of the board, as one brings a board up."""
    preset = replace(pick_preset(case.rig, number), stored=None)
    goals = goals_by_unit(case.rig, preset)
    ones = [
        Worked(replace(preset, goals=(replace(goals[name], in_loop=None),)))
        for name in sorted(goals, key=lambda one: case.rig.units[one].order)
        if goals[name].program or goals[name].controls
    ]
    work_out(case.bench(Effort.FULL), ones)
    for one in ones:
        if one.composed and one.composed.sending.items:
            name = case.rig.units[one.preset.goals[0].unit].name
            title = f"{name}, for preset {preset.title}"
            if leaves_by(case, one.preset.goals[0].unit, overs):
                yield _step(case, one.preset, one.composed.sending, title=title, overs=overs)


def leaves_by(case: Case, unit: str | None, overs: Collection[str]) -> bool:
    """Whether what is meant for a unit leaves by one of these outputs; without any, all does."""
    over = case.board.routing.over.get(unit or "")
    return not overs or over is None or over in overs


def look_at_outputs(case: Case, overs: Collection[str]) -> None:
    """Refuse what would reach a unit that it is not meant for.

    One port stands for one output of the controller. Where two outputs carry messages for different
    units on one channel, a port that has the messages of both would change a unit by mistake.
    Raises CannotUse then, and for an output that the controller does not choose from.
    """
    routing = case.board.routing
    known = ", ".join(routing.outputs)
    for over in overs:
        if over not in routing.outputs:
            what = (
                f"it chooses from {known}"
                if known
                else "it sends everything over each of its outputs; name the port alone"
            )
            raise CannotUse(f'the controller sends nothing over "{over}" alone; {what}')
    if overs:
        return
    used: dict[int, str] = {}
    spoken_to = (unit for unit in case.rig.units.values() if unit.id in routing.over)
    for unit in (one for one in spoken_to if one.sent_on is not None and one.chart.listens):
        channel, output = unit.sent_on or 0, routing.over[unit.id]
        first = used.setdefault(channel, output)
        if first != output:
            raise CannotUse(
                f"channel {channel} is used on {first} and on {output}, for different units; say "
                f"which of them each port stands for, as in {first}=USB"
            )


def _step(
    case: Case, preset: Preset, sending: Sending, *, title: str, overs: Collection[str] = ()
) -> Step:
    look_at_outputs(case, overs)
    if case.rig.controller is None:
        raise CannotUse('this rig has no controller; name one in [rig], as in controller = "feet"')
    if not sending.items:
        raise CannotUse(f"{title} sends nothing over MIDI")
    board, gap_us = case.board, case.board.hand.gap_us
    hand = Hand(gap_us=gap_us, running_status=False)
    run = run_one(board.roads, board.listeners, sending, hand=hand)
    own = [leaves_by(case, item.unit, overs) for item in sending.items]
    if not any(own):
        raise CannotUse(f"{title} sends nothing over {', '.join(overs)}")
    leaving = planned(sending.items, gap_us=gap_us, over=board.routing.over)
    return Step(
        title=title,
        messages=tuple(compress(leaving, own)),
        meanings=tuple(compress(meanings(case.rig, preset, run), own)),
        shows=tuple(
            one for one in _shows(case, preset, run) if leaves_by(case, one.unit.id, overs)
        ),
    )


def _shows(case: Case, preset: Preset, run: Run) -> Iterator[Shows]:
    """What every unit shows that was sent something, in the order of the board."""
    meant = {item.unit for item in run.sending.items}
    goals = goals_by_unit(case.rig, preset)
    for unit in case.rig.units.values():
        reception = run.receptions.get(unit.id)
        if unit.id in meant and reception is not None:
            yield _shown_by(unit, reception)
        elif unit.id in meant and unit.id in goals:
            yield Shows(unit=unit, program="", controls=(), trouble=("it does not hear this",))


def _shown_by(unit: Unit, reception: Reception) -> Shows:
    numbering, program = unit.chart.programs, reception.program
    label = wire_to_label(numbering, program) if numbering and program else None
    heard = bool(reception.fates)
    trouble = [_trouble(fate) for fate in reception.fates if not _is_fine(fate)]
    return Shows(
        unit=unit,
        program=label or "",
        controls=tuple(
            (unit.chart.controls[name].name, shown(unit.chart.controls[name], value))
            for name, value in reception.values.items()
        ),
        trouble=tuple(dict.fromkeys(trouble)) if heard else ("it does not hear this",),
    )


def _is_fine(fate: Fate) -> bool:
    return fate.is_good or fate in (Fate.OTHER_CHANNEL, Fate.NOT_CONCERNED)


def _trouble(fate: Fate) -> str:
    return f"a message is {fate.value.replace('-', ' ')}"


def pick_sweep(case: Case, name: str, *, overs: Collection[str] = ()) -> Sweep:
    """The sweep of this name. Raises CannotUse, naming the nearest, when there is none.

    `overs` leaves the moves that the controller sends over these outputs (see `look_at_outputs`).
    """
    look_at_outputs(case, overs)
    found = sweep_called(case, name)
    own = tuple(one for one in found.moves if leaves_by(case, one.unit, overs))
    if not own:
        raise CannotUse(f'sweep "{found.name}" moves nothing over {", ".join(overs)}')
    return replace(found, moves=own) if overs else found


def sweep_called(case: Case, name: str) -> Sweep:
    """The sweep of this name, whole. Raises CannotUse, naming the nearest, when there is none."""
    found = next((one for one in case.rig.sweeps if one.name.lower() == name.lower()), None)
    if found is not None:
        return found
    names = [one.name for one in case.rig.sweeps]
    if not names:
        raise CannotUse(f'there is no preset or sweep "{name}": this rig has no sweeps')
    meant = nearest(name, names)
    hint = f'; did you mean "{meant}"?' if meant else f"; there are {', '.join(names)}"
    raise CannotUse(f'there is no preset or sweep "{name}"{hint}')


def channels_in_use(case: Case) -> frozenset[int]:
    """The channels on which the controller addresses units."""
    units = case.rig.units.values()
    return frozenset(one.sent_on for one in units if one.sent_on is not None and one.chart.listens)
