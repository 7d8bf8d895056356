"""What a board is meant to do: a few telling presses, what they send, what each unit should show.

Not every preset is looked at. The few that together use every unit, and show its program and its
controls, tell as much as all of them.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from thruline.compose.goals import goals_by_unit
from thruline.compose.jobs import Effort
from thruline.find.suspect import Sendings
from thruline.proof.case import Case
from thruline.proof.working import Worked, work_out
from thruline.rig.preset import Goal, Preset
from thruline.rig.values import ControlKind, Value
from thruline.rig.whole import Rig

MOST_PRESSES = 4
"""Presets that are tried at most; each further one shows less that is new."""
_UNSEEN = (ControlKind.MOMENTARY, ControlKind.TOGGLE_ANY)


@dataclass(frozen=True, slots=True, kw_only=True)
class Meant:
    """The rig as planned, the presses that are tried, and what they send and want.

    `goals` are by preset and unit. `heard` are the units that any press wants something of, in the
    order of the document.
    """

    case: Case
    presses: tuple[Preset, ...]
    sendings: Sendings
    goals: Mapping[tuple[int, str], Goal]

    @property
    def rig(self) -> Rig:
        """The rig as planned."""
        return self.case.rig

    @property
    def looked_at(self) -> tuple[str, ...]:
        """Units that some press should change."""
        return tuple(dict.fromkeys(unit for unit in self.rig.units if self.pressed_for(unit)))

    def is_timed(self, unit: str, number: int) -> bool:
        """Whether it matters when messages come: values after a program may come too early."""
        goal = self.goals.get((number, unit))
        return goal is not None and goal.program is not None and bool(goal.controls)

    def pressed_for(self, unit: str) -> tuple[int, ...]:
        """The presses that should change a unit, by number."""
        return tuple(one.number for one in self.presses if (one.number, unit) in self.goals)


def meant_by(case: Case) -> Meant:
    """Choose the presses of a rig, and work out what they send."""
    rig = case.rig
    presses = tuple(_telling(rig))
    worked = [Worked(preset) for preset in presses]
    if worked and rig.controller is not None:
        work_out(case.bench(Effort.QUICK), worked)
    sendings = {one.preset.number: one.run.sending.items for one in worked if one.run is not None}
    goals = {
        (preset.number, unit): goal
        for preset in presses
        for unit, goal in goals_by_unit(rig, preset).items()
        if (rig.controller is None or unit != rig.controller.id) and set(_facts(unit, goal))
    }
    return Meant(
        case=case,
        presses=presses,
        sendings=MappingProxyType(sendings),
        goals=MappingProxyType(goals),
    )


def _telling(rig: Rig) -> Iterator[Preset]:
    """Presets that together show every program and control the presets use, the fullest first."""
    open_facts = {
        preset.number: {
            fact for unit, goal in goals_by_unit(rig, preset).items() for fact in _facts(unit, goal)
        }
        for preset in reversed(rig.presets)
    }
    for _ in range(MOST_PRESSES):
        best = max(open_facts, key=lambda number: (len(open_facts[number]), -number), default=None)
        if best is None or not open_facts[best]:
            return
        preset = rig.preset(best)
        if preset is not None:
            yield preset
        shown = open_facts.pop(best)
        open_facts = {number: facts - shown for number, facts in open_facts.items()}


def _facts(unit: str, goal: Goal) -> Iterator[tuple[str, str]]:
    """What a goal lets people see at a unit."""
    if goal.program is not None and goal.program.wire is not None:
        yield unit, "program"
    for one in goal.controls:
        if isinstance(one.value, Value) and one.control.kind not in _UNSEEN:
            yield unit, one.control.kind
