"""What a preset asks for and no message can be made of: listed, so that nothing is lost in silence.

The proof reports each of them by a rule of its own; whoever follows one preset is told here.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from thruline.compose.goals import goals_by_unit
from thruline.rig.preset import Goal, Preset, ProgramGoal
from thruline.rig.unit import Unit
from thruline.rig.values import NotUnderstood
from thruline.rig.whole import Lack, Rig, Unresolved


@dataclass(frozen=True, slots=True, kw_only=True)
class NotSent:
    """Something that is not sent: for which unit (its id), what it is, and why not.

    `written` is what the document says. `unit` is None for a message of the memory.
    """

    unit: str | None
    says: str
    written: str
    why: str


def not_sent(rig: Rig, preset: Preset) -> tuple[NotSent, ...]:
    """Everything that a preset wants and nothing is sent for, in board order; then what is unknown.

    Where the document says what the memory holds, its messages that cannot be read are among them.
    """
    merged = goals_by_unit(rig, preset)
    found: list[NotSent] = []
    for unit in sorted((rig.units[name] for name in merged), key=lambda one: one.order):
        goal = merged[unit.id]
        found.extend(_of_program(rig, unit, goal))
        found.extend(_of_controls(rig, unit, goal))
        found.extend(_of_loop(rig, unit, goal))
    return (*found, *_unknown(rig, preset))


def why_no_loop(rig: Rig, unit: str) -> str | None:
    """Why no relay can put a unit in or out; None when one can."""
    hung = rig.audio.loop_of(unit) if rig.audio else None
    if hung is None:
        return "it hangs in no relay loop of the audio path"
    owner = rig.units.get(hung[0])
    if owner is None or owner is rig.controller or hung[1] in owner.chart.controls:
        return None
    return f"{owner.name} has no control that switches {hung[1]}"


def _of_program(rig: Rig, unit: Unit, goal: Goal) -> Iterator[NotSent]:
    if goal.program is None:
        return
    why = _why_nothing(rig, unit) or _why_no_program(unit, goal.program)
    if why:
        says = f'{unit.name}: program "{goal.program.label}"'
        yield NotSent(unit=unit.id, says=says, written=goal.program.label, why=why)


def _why_no_program(unit: Unit, wanted: ProgramGoal) -> str | None:
    if unit.chart.programs is None:
        return "its chart does not say how its programs are numbered"
    return "its display has no such label" if wanted.wire is None else None


def _of_controls(rig: Rig, unit: Unit, goal: Goal) -> Iterator[NotSent]:
    nothing = _why_nothing(rig, unit)
    for one in goal.controls:
        why = nothing
        if isinstance(one.value, NotUnderstood):
            why = nothing or f"{one.value.why}; write for example {one.value.example}"
        if why:
            says = f"{unit.name}: {one.control.name} {one.value.written}"
            yield NotSent(unit=unit.id, says=says, written=one.value.written, why=why)


def _why_nothing(rig: Rig, unit: Unit) -> str | None:
    """Why the unit is sent nothing at all; None when it can be."""
    if unit is rig.controller:
        return "the controller sends nothing to itself"
    return "its channel is not known" if unit.sent_on is None else None


def _of_loop(rig: Rig, unit: Unit, goal: Goal) -> Iterator[NotSent]:
    if goal.in_loop is None:
        return
    why, word = why_no_loop(rig, unit.id), "in" if goal.in_loop else "out"
    if why:
        yield NotSent(unit=unit.id, says=f"{unit.name}: loop {word}", written=word, why=why)


def _unknown(rig: Rig, preset: Preset) -> Iterator[NotSent]:
    """Units, controls and messages of the preset that are not there or cannot be read."""
    for gap in rig.unresolved:
        steps = gap.address.steps
        if steps[:1] != preset.address.steps or len(steps) < 2:
            continue
        if gap.lack is Lack.MESSAGE:
            if preset.stored is not None:
                yield _unread(gap)
        else:
            says = f"{steps[1].key}: {gap.found}" if steps[1].key != gap.found else gap.found
            yield NotSent(unit=steps[1].key, says=says, written=gap.found, why=gap.says)


def _unread(gap: Unresolved) -> NotSent:
    place = str(gap.address.steps[-1].entry).removeprefix("#")
    says = f"message {place} of the memory"
    return NotSent(unit=None, says=says, written=gap.found, why=gap.says)
