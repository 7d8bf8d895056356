"""Presets and what they want of each unit."""

from dataclasses import dataclass
from typing import TypeAlias

from thruline.base.address import Address, at, nth
from thruline.rig.programs import WireProgram
from thruline.rig.values import Control, NotUnderstood, Value


@dataclass(frozen=True, slots=True)
class ProgramGoal:
    """A program by the label written; `wire` is None when the unit has no such label."""

    label: str
    wire: WireProgram | None


@dataclass(frozen=True, slots=True)
class ControlGoal:
    """A control and the value wanted of it, or why the written value makes no sense."""

    control: Control
    value: Value | NotUnderstood


@dataclass(frozen=True, slots=True, kw_only=True)
class Goal:
    """What a preset wants of one unit. `in_loop`: its relay loop in or out; None leaves it.

    `bare` says that the document writes it as one word, without naming the part.
    """

    unit: str
    program: ProgramGoal | None = None
    controls: tuple[ControlGoal, ...] = ()
    in_loop: bool | None = None
    bare: bool = False


@dataclass(frozen=True, slots=True)
class StoredProgram:
    """A program change in the controller's memory; `shown` is the number on its screen.

    `over` is the output chosen for it, where one is: so with all of these.
    """

    channel: int
    shown: int
    wire: int
    over: str = ""


@dataclass(frozen=True, slots=True)
class StoredControl:
    """A control change in the controller's memory."""

    channel: int
    number: int
    value: int
    over: str = ""


@dataclass(frozen=True, slots=True)
class StoredPause:
    """A pause in the controller's memory, ms."""

    ms: int


@dataclass(frozen=True, slots=True)
class StoredRaw:
    """Other bytes in the controller's memory: one complete message."""

    data: tuple[int, ...]
    over: str = ""


Stored: TypeAlias = StoredProgram | StoredControl | StoredPause | StoredRaw


@dataclass(frozen=True, slots=True, kw_only=True)
class Preset:
    """One memory of the rig.

    `stored` is what the controller's memory really holds, where the document says so; None means
    that it holds what the goals ask for. `unread` counts messages of it that cannot be read.
    """

    number: int
    name: str
    goals: tuple[Goal, ...]
    stored: tuple[Stored, ...] | None = None
    unread: int = 0
    occurrence: int = 1

    @property
    def address(self) -> Address:
        """Where the preset stands in the document."""
        return at("preset", nth(str(self.number), self.occurrence))

    @property
    def title(self) -> str:
        """Number and name, as people call it."""
        return f'{self.number} "{self.name}"'

    def address_of(self, goal: Goal, part: str) -> Address:
        """Where a part of one of its goals (`program`, `loop`, a control's id) is written."""
        whole = self.address.child(goal.unit)
        return whole if goal.bare else whole.child(part)

    def goal_for(self, unit: str) -> Goal | None:
        """What it wants of a unit, if anything."""
        return next((goal for goal in self.goals if goal.unit == unit), None)
