"""What every check would show for every suspect, as a table of small numbers.

Rows are suspects, columns checks; a number stands for one of the column’s outcomes. A row differs
from that of a good board only where its fault can matter, and only there is anything worked out.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from thruline.find.checks import Check
from thruline.find.hearing import clocks_at, dump_comes
from thruline.find.meant import Meant
from thruline.find.scene import Plugged
from thruline.find.suspect import Change, Reach, Suspect
from thruline.find.trials import Trial
from thruline.find.worlds import Seen, Worlds

Outcomes: TypeAlias = NDArray[np.int16]
Answer: TypeAlias = str
"""The id of an answer; of a glance the units that are not right, with a comma between them."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Predicted:
    """The table: `outcomes[suspect, check]` is a place in `answers[check]`.

    `good` is the row of a board with nothing wrong.
    """

    outcomes: Outcomes
    good: Outcomes
    answers: tuple[tuple[Answer, ...], ...]


def predict(worlds: Worlds, suspects: Sequence[Suspect], checks: Sequence[Check]) -> Predicted:
    """The whole table."""
    columns = _Columns(checks)
    _play_ahead(worlds, suspects, checks)
    good = [columns.code(place, observed(worlds, one)) for place, one in enumerate(checks)]
    by_look = {one.look: place for place, one in enumerate(checks) if one.look}
    table = np.tile(np.array(good, np.int16), (len(suspects), 1))
    concerned = _Concerned(worlds.meant, checks)
    shared: dict[frozenset[str], dict[int, int]] = {}
    for row, suspect in enumerate(suspects):
        places = concerned.by(suspect.changes)
        known = shared.setdefault(suspect.alike, {})
        for place in places:
            check = checks[place]
            code = known.get(place) if check.trial in _ALIKE else None
            if code is None:
                code = columns.code(place, observed(worlds, check, suspect.changes))
            if check.trial in _ALIKE:
                known[place] = code
            table[row, place] = code
        for look, shows in suspect.shows.items():
            if look in by_look:
                table[row, by_look[look]] = columns.code(by_look[look], shows)
    return Predicted(outcomes=table, good=np.array(good, np.int16), answers=columns.told())


def _play_ahead(worlds: Worlds, suspects: Sequence[Suspect], checks: Sequence[Check]) -> None:
    """Every memory that some suspect makes, over the board and straight into its unit."""
    made = [
        change for suspect in suspects for change in suspect.changes if change.reach is Reach.MEMORY
    ]
    numbers = tuple(worlds.meant.sendings)
    worlds.play_ahead((number, (change,)) for number in numbers for change in made)
    straight = {one.scene for one in checks if one.scene.plugged is Plugged.STRAIGHT_IN}
    for scene in straight:
        mine = [one for one in made if scene.keeps(one, worlds.meant.rig)]
        pressed = worlds.meant.pressed_for(scene.on)
        worlds.play_ahead(((number, (one,)) for number in pressed for one in mine), scene)


class _Columns:
    """The outcomes of each check, numbered as they turn up."""

    def __init__(self, checks: Sequence[Check]) -> None:
        self._codes: list[dict[Answer, int]] = [
            {answer: code for code, answer in enumerate(one.answers)} for one in checks
        ]

    def code(self, place: int, answer: Answer) -> int:
        codes = self._codes[place]
        return codes.setdefault(answer, len(codes))

    def told(self) -> tuple[tuple[Answer, ...], ...]:
        return tuple(tuple(codes) for codes in self._codes)


class _Concerned:
    """The checks that each change can matter to, looked up once."""

    def __init__(self, meant: Meant, checks: Sequence[Check]) -> None:
        self._meant = meant
        self._pressed = [(place, one) for place, one in enumerate(checks) if one.number]
        self._tempos = [place for place, one in enumerate(checks) if one.trial is Trial.TEMPO]
        self._dumps = [place for place, one in enumerate(checks) if one.trial is Trial.DUMP]
        self._known: dict[tuple[str, Reach], list[int]] = {}

    def by(self, changes: Iterable[Change]) -> list[int]:
        """The places of the checks that any of these changes can matter to."""
        return sorted({place for change in changes for place in self._by_one(change)})

    def _by_one(self, change: Change) -> list[int]:
        key = (change.on, change.reach)
        known = self._known.get(key)
        if known is None:
            known = [place for place, one in self._pressed if _matters(self._meant, one, change)]
            known += self._tempos if change.reach is Reach.WIRES else []
            known += self._dumps if change.reach in (Reach.WIRES, Reach.DUMPS) else []
            self._known[key] = known
        return known


def _matters(meant: Meant, check: Check, change: Change) -> bool:
    if change.reach is Reach.DUMPS or not check.scene.keeps(change, meant.rig):
        return False
    controller = meant.rig.controller
    everywhere = controller is not None and change.on == controller.id
    if check.scene.plugged is Plugged.TOOL_IN and change.reach is Reach.MEMORY:
        return False
    if change.reach is Reach.WIRES or everywhere or check.trial is Trial.GLANCE:
        return True
    timed = change.reach is Reach.MEMORY and meant.is_timed(check.unit, check.number)
    return change.on == check.unit or timed


def observed(worlds: Worlds, check: Check, changes: Iterable[Change] = ()) -> Answer:
    """What a check shows on a board with these changes."""
    made = tuple(changes)
    find = _OBSERVE.get(check.trial)
    if find is not None:
        return find(worlds, check, made)
    if check.number:
        return worlds.seen(check.unit, check.number, changes=made, scene=check.scene)
    return check.good


def _glance(worlds: Worlds, check: Check, changes: tuple[Change, ...]) -> Answer:
    """The units that are not right.

    What concerns one unit alone is looked at there alone, and where messages may come too early.
    """
    units = [
        unit for unit in worlds.meant.looked_at if check.number in worlds.meant.pressed_for(unit)
    ]
    near = {one.on for one in changes}
    local = near <= set(units) and not any(one.reach is Reach.WIRES for one in changes)
    early = any(one.reach is Reach.MEMORY for one in changes)

    def is_right(unit: str) -> bool:
        touched = not local or unit in near
        touched = touched or (early and worlds.meant.is_timed(unit, check.number))
        return worlds.seen(unit, check.number, changes=changes if touched else ()) is Seen.RIGHT

    return ",".join(unit for unit in units if not is_right(unit))


def _repeat(worlds: Worlds, check: Check, changes: tuple[Change, ...]) -> Answer:
    right = worlds.seen(check.unit, check.number, changes=changes) is Seen.RIGHT
    return "always" if right else "never"


def _lamp(worlds: Worlds, check: Check, changes: tuple[Change, ...]) -> Answer:
    world = worlds.world(changes)
    alive = world.rig.units[check.unit].chart.listens
    comes = worlds.arrivals(check.unit, check.number, changes=changes)
    return "blinks" if comes and alive else "dark"


def _listen(worlds: Worlds, check: Check, changes: tuple[Change, ...]) -> Answer:
    """The interface stands in for the unit, so that nothing wrong with that matters."""
    others = tuple(one for one in changes if one.on != check.unit or one.of_memory is not None)
    return worlds.came(check.unit, check.number, changes=others)


def _tempo(worlds: Worlds, check: Check, changes: tuple[Change, ...]) -> Answer:
    world = worlds.world(changes)
    clocks = clocks_at(world.rig, world.network, check.unit)
    return {0: "free", 1: "follows"}.get(clocks, "doubled")


def _dump(worlds: Worlds, check: Check, changes: tuple[Change, ...]) -> Answer:
    """The computer stands in for the controller and for the unit, so that only the way matters."""
    ends = {check.unit, worlds.meant.rig.controller.id if worlds.meant.rig.controller else ""}
    world = worlds.world([one for one in changes if one.on not in ends])
    return "good" if dump_comes(world.rig, world.network, check.unit) else "nothing"


_OBSERVE: Mapping[Trial, Callable[[Worlds, Check, tuple[Change, ...]], Answer]] = {
    Trial.GLANCE: _glance,
    Trial.REPEAT: _repeat,
    Trial.LAMP: _lamp,
    Trial.LISTEN: _listen,
    Trial.TEMPO: _tempo,
    Trial.DUMP: _dump,
}
"""How the outcome of each kind of check is worked out; all others look at what one unit shows."""
_ALIKE = frozenset({Trial.GLANCE, Trial.LOOK, Trial.REPEAT, Trial.LAMP, Trial.TEMPO})
"""Checks that show the same for suspects whose changes are alike."""
