"""What every check would show for every suspect, as a table of small numbers.

Rows are suspects, columns checks; a number stands for one of the column’s outcomes. A row differs
from that of a good board only where its fault can matter, and only there is anything worked out.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
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
    by_looks = tuple(_by_looks(checks))
    followers = {one.place for one in by_looks}
    worked = [place for place in range(len(checks)) if place not in followers]
    table = np.zeros((1 + len(suspects), len(checks)), np.int16)  # the first row is a good board
    table[0, worked] = [columns.code(n, observed(worlds, checks[n])) for n in worked]
    table[1:] = table[0]
    _work_out(worlds, suspects, columns, table=table[1:], places=worked)
    for one in by_looks:
        table[:, one.place] = _followed(one, columns, table)
    _swap(worlds, suspects, columns, table[1:])
    return Predicted(outcomes=table[1:], good=table[0], answers=columns.told())


def _work_out(
    worlds: Worlds,
    suspects: Sequence[Suspect],
    columns: "_Columns",
    *,
    table: Outcomes,
    places: Sequence[int],
) -> None:
    """Fill in what each fault changes, at the places of these checks."""
    checks = columns.checks
    by_look = {one.look: place for place, one in enumerate(checks) if one.look}
    concerned = _Concerned(worlds.meant, checks, places)
    shared: dict[frozenset[str], dict[int, int]] = {}
    for row, suspect in enumerate(suspects):
        known = shared.setdefault(suspect.alike, {})
        own = {one.on for one in suspect.changes}
        for place in concerned.by(suspect.changes):
            check = checks[place]
            alike = check.trial in _ALIKE or (check.trial is Trial.LISTEN and check.unit not in own)
            code = known.get(place) if alike else None
            if code is None:
                code = columns.code(place, observed(worlds, check, suspect.changes))
            if alike:
                known[place] = code
            table[row, place] = code
        for look, shows in suspect.shows.items():
            if look in by_look:
                table[row, by_look[look]] = columns.code(by_look[look], shows)


@dataclass(frozen=True, slots=True)
class _ByLooks:
    """A check, by its place, that shows nothing but what looks at single units show."""

    place: int
    check: Check
    looks: tuple[int, ...]


def _by_looks(checks: Sequence[Check]) -> Iterator[_ByLooks]:
    """Glances, repeats and swaps, where the looks that they are made of are among the checks."""
    looks = {(n.unit, n.number): place for place, n in enumerate(checks) if n.trial is Trial.LOOK}
    for place, check in enumerate(checks):
        if check.trial in (Trial.GLANCE, Trial.REPEAT, Trial.SWAP):
            found = [looks.get((unit, check.number)) for unit in check.units or (check.unit,)]
            there = tuple(one for one in found if one is not None)
            if len(there) == len(found):
                yield _ByLooks(place, check, there)


def _followed(one: _ByLooks, columns: "_Columns", table: Outcomes) -> Outcomes:
    """The column of a check that follows from looks."""
    if one.check.trial is Trial.SWAP:
        return table[:, one.looks[0]]  # their answers are the same, in the same order
    right = [columns.code(look, Seen.RIGHT) for look in one.looks]
    wrong = table[:, list(one.looks)] != right
    if one.check.trial is Trial.REPEAT:
        codes = [columns.code(one.place, says) for says in (_ALWAYS, _NEVER)]
        return np.where(wrong[:, 0], codes[1], codes[0]).astype(np.int16)
    seen, where = np.unique(wrong, axis=0, return_inverse=True)
    names = [
        ",".join(unit for unit, odd in zip(one.check.units, row, strict=True) if odd)
        for row in seen.tolist()
    ]
    codes = [columns.code(one.place, name) for name in names]
    return np.array(codes, np.int16)[where.reshape(-1)]


def _swap(
    worlds: Worlds, suspects: Sequence[Suspect], columns: "_Columns", table: Outcomes
) -> None:
    """Put right what swapping a lead shows for whatever goes away with it."""
    swaps: dict[str, list[int]] = {}
    for place, check in enumerate(columns.checks):
        if check.trial is Trial.SWAP:
            swaps.setdefault(check.scene.on, []).append(place)
    for row, suspect in enumerate(suspects):
        for lead in {one.on for one in suspect.changes}:
            for place in swaps.get(lead, ()):
                seen = observed(worlds, columns.checks[place], suspect.changes)
                table[row, place] = columns.code(place, seen)


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
        self.checks = checks
        self._codes: list[dict[Answer, int]] = [
            {answer: code for code, answer in enumerate(one.answers)} for one in checks
        ]

    def code(self, place: int, answer: Answer) -> int:
        codes = self._codes[place]
        return codes.setdefault(answer, len(codes))

    def told(self) -> tuple[tuple[Answer, ...], ...]:
        return tuple(tuple(codes) for codes in self._codes)


class _Concerned:
    """The checks, of those at some places, that each change can matter to, looked up once."""

    def __init__(self, meant: Meant, checks: Sequence[Check], places: Sequence[int]) -> None:
        asked = [(place, checks[place]) for place in places]
        self._meant = meant
        self._pressed = [(place, one) for place, one in asked if one.number]
        self._tempos = [place for place, one in asked if one.trial is Trial.TEMPO]
        self._dumps = [place for place, one in asked if one.trial is Trial.DUMP]
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
    units = check.units
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
    return _ALWAYS if right else _NEVER


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
_ALWAYS, _NEVER = "always", "never"
_ALIKE = frozenset({Trial.GLANCE, Trial.LOOK, Trial.REPEAT, Trial.LAMP, Trial.TEMPO})
"""Checks that show the same for suspects whose changes are alike."""
