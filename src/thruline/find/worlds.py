"""What units would show with certain faults put in: the rig's own path, timing and reception.

Nothing is predicted twice: what follows from the same changes in the same scene is kept.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from typing import TypeAlias

from thruline.find.meant import Meant
from thruline.find.played import Played, World, play_all
from thruline.find.scene import AS_IT_STANDS, Plugged, Scene, plugged_ends, set_up
from thruline.find.suspect import Arrivals, Change, Reach, Sendings, put_in, send_instead
from thruline.path.network import read_network
from thruline.proof.board import NO_SENDER
from thruline.rig.cable import Jack
from thruline.rig.preset import Goal
from thruline.rig.programs import WireProgram, place_of, wire_to_label
from thruline.rig.unit import Unit
from thruline.rig.values import ControlKind, Value
from thruline.rig.whole import Rig
from thruline.timing.receive import Arrival, Listener, Reception, listener_of, receive
from thruline.timing.roads import roads_of
from thruline.timing.run import Hand
from thruline.timing.sending import Item


class Seen(StrEnum):
    """What a person sees at a unit after a press, against what the preset wants."""

    RIGHT = "right"
    NOTHING = "nothing"
    ONE_ABOVE = "one-above"
    ONE_BELOW = "one-below"
    ANOTHER = "another"
    KNOBS_WRONG = "knobs-wrong"
    """The program is right, and something else is not."""
    KNOBS_ONLY = "knobs-only"
    """The program stayed, and something else changed."""


class Came(StrEnum):
    """What is heard on a wire, against what should come there."""

    AS_PLANNED = "as-planned"
    NOTHING = "nothing"
    LESS = "less"
    OTHER = "other"


_OF_WIRES = (Reach.WIRES, Reach.DUMPS)
_Key: TypeAlias = tuple[Scene, frozenset[str], int]


@dataclass(slots=True)
class Worlds:
    """All that was predicted so far for one board; everything in it follows from its key."""

    meant: Meant
    _worlds: dict[tuple[Scene, frozenset[str]], World] = field(default_factory=dict)
    _memories: dict[frozenset[str], Sendings] = field(default_factory=dict)
    _played: dict[_Key, Played] = field(default_factory=dict)
    _seen: dict[tuple[str, int, Scene, frozenset[str]], Seen] = field(default_factory=dict)
    _came: dict[tuple[str, _Key], Came] = field(default_factory=dict)
    _plugged: dict[Scene, Rig] = field(default_factory=dict)
    _ends: dict[Scene, frozenset[Jack]] = field(default_factory=dict)
    _ears: dict[tuple[str, frozenset[str]], Listener] = field(default_factory=dict)
    _receptions: dict[tuple[int, tuple[Arrival, ...]], tuple[Listener, Reception]] = field(
        default_factory=dict
    )

    def world(self, changes: Iterable[Change] = (), scene: Scene = AS_IT_STANDS) -> World:
        """The board with changes of its wires, as it is plugged."""
        made = [one for one in self._kept(changes, scene) if one.reach in _OF_WIRES]
        scene = _without_swap(scene)
        key = (scene, _keys(made))
        known = self._worlds.get(key)
        if known is None:
            known = self._worlds[key] = self._make(made, scene)
        return known

    def arrivals(
        self,
        unit: str,
        number: int,
        *,
        changes: Iterable[Change] = (),
        scene: Scene = AS_IT_STANDS,
    ) -> tuple[Arrival, ...]:
        """What comes to the inputs of a unit when a preset is pressed."""
        kept = self._kept(changes, scene)
        played = self._played_for(number, kept, scene)
        return played.at(unit)

    def _played_for(self, number: int, kept: Sequence[Change], scene: Scene) -> Played:
        key = self._key(number, kept, scene)
        known = self._played.get(key)
        if known is None:
            rest = self._without_idle(number, kept, scene)
            if len(rest) < len(kept):
                known = self._played_for(number, rest, scene)
            elif scene.is_apart and any(one.silences for one in kept):
                known = Played(self.world((), scene), (), ())
            else:
                items = self._items(number, kept, scene)
                known = play_all(self.world(kept, scene), [items])[0]
            self._played[key] = known
        return known

    def _without_idle(
        self, number: int, kept: Sequence[Change], scene: Scene
    ) -> tuple[Change, ...]:
        """The changes but one that silences only what the others have silenced already.

        Where messages go round or meet, a silent lead may still decide which way is taken.
        """
        network = self.meant.case.board.network
        met = network.rings or any(len(links) > 1 for links in network.inputs.values())
        for one in () if met or scene.is_apart or len(kept) < 2 else kept:
            rest = tuple(other for other in kept if other is not one)
            if one.silences and all(not other.of_rig or other.silences for other in rest):
                played = self._played_for(number, rest, scene)
                if all(played.is_idle(jack) for jack in one.silences):
                    return rest
        return tuple(kept)

    def play_ahead(
        self, variants: Iterable[tuple[int, tuple[Change, ...]]], scene: Scene = AS_IT_STANDS
    ) -> None:
        """Play many memories over one board, all in one go; they are then known."""
        new = {
            self._key(number, kept, scene): self._items(number, kept, scene)
            for number, kept in variants
        }
        new = {key: items for key, items in new.items() if key not in self._played}
        if new:
            played = play_all(self.world((), scene), list(new.values()))
            self._played.update(zip(new, played, strict=True))

    def _kept(self, changes: Iterable[Change], scene: Scene) -> tuple[Change, ...]:
        """The changes that a check leaves on the board, and that matter as it is plugged."""
        if scene is AS_IT_STANDS:
            return tuple(changes)
        kept = tuple(one for one in changes if scene.keeps(one, self.meant.rig))
        if not kept or not scene.is_apart:
            return kept
        ends = self._ends_of(scene)
        return tuple(one for one in kept if not one.silences or one.silences & ends)

    def _ends_of(self, scene: Scene) -> frozenset[Jack]:
        known = self._ends.get(scene)
        if known is None:
            ends = plugged_ends(self.meant.rig, scene, self.meant.case.board.network)
            known = self._ends[scene] = frozenset(one for one in ends if one is not None)
        return known

    def _key(self, number: int, kept: Iterable[Change], scene: Scene) -> _Key:
        scene = _without_swap(scene)
        return scene, _keys(one for one in kept if one.reach is not Reach.EAR), number

    def _items(self, number: int, kept: Iterable[Change], scene: Scene) -> tuple[Item, ...]:
        is_tool = scene.plugged is Plugged.TOOL_IN
        return self.memory(() if is_tool else kept).get(number, ())

    def memory(self, changes: Iterable[Change] = ()) -> Sendings:
        """What the controller sends."""
        made = [one for one in changes if one.reach is Reach.MEMORY]
        key = frozenset(one.key for one in made)
        known = self._memories.get(key)
        if known is None:
            known = self._memories[key] = send_instead(self.meant.sendings, made)
        return known

    def seen(
        self,
        unit: str,
        number: int,
        *,
        changes: Iterable[Change] = (),
        scene: Scene = AS_IT_STANDS,
    ) -> Seen:
        """What is seen at a unit when a preset is pressed."""
        kept = self._kept(changes, scene)
        key = (unit, number, _without_swap(scene), _keys(kept))
        known = self._seen.get(key)
        if known is None:
            known = self._seen[key] = self._look(unit, number, kept, scene=scene)
        return known

    def _look(self, unit: str, number: int, kept: Sequence[Change], *, scene: Scene) -> Seen:
        ear = self._ear(unit, kept)
        coming = _heard(self._played_for(number, kept, scene).at(unit), unit, kept)
        goal = self.meant.goals[number, unit]
        planned = self.meant.rig.units[unit]
        return judged(self._receive(ear, coming), goal, unit=ear.unit, planned=planned)

    def came(
        self,
        unit: str,
        number: int,
        *,
        changes: Iterable[Change] = (),
        scene: Scene = AS_IT_STANDS,
    ) -> Came:
        """What is heard on the wire before a unit, when a preset is pressed."""
        kept = self._kept(changes, scene)
        key = (unit, self._key(number, kept, scene))
        known = self._came.get(key)
        if known is None:
            planned = [one.data for one in self.arrivals(unit, number)]
            found = [one.data for one in self._played_for(number, kept, scene).at(unit)]
            known = self._came[key] = _compared(found, planned)
        return known

    def _make(self, changes: Iterable[Change], scene: Scene) -> World:
        planned = self.meant.case.board.network
        plugged = self._plugged.get(scene)
        if plugged is None:
            plugged = self._plugged[scene] = set_up(self.meant.rig, scene, planned)
        rig = put_in(plugged, changes)
        network = read_network(rig)
        sender = self.meant.case.board.sender if rig.controller is not None else NO_SENDER
        hand = Hand(gap_us=sender.gap_us, running_status=sender.running_status)
        routing = self.meant.case.board.routing  # its set-up stays, whatever is plugged where
        return World(rig, network, roads_of(network, rig.controller, routing), hand)

    def _ear(self, unit: str, changes: Iterable[Change]) -> Listener:
        made = [one for one in changes if one.of_rig is not None and one.on == unit]
        key = (unit, frozenset(one.key for one in made))
        known = self._ears.get(key)
        if known is None:
            known = self._ears[key] = listener_of(put_in(self.meant.rig, made).units[unit])
        return known

    def _receive(self, ear: Listener, coming: tuple[Arrival, ...]) -> Reception:
        key = (id(ear), coming)
        known = self._receptions.get(key)
        if known is None:
            known = self._receptions[key] = (ear, receive(ear, coming))
        return known[1]


def _heard(coming: Arrivals, unit: str, kept: Iterable[Change]) -> Arrivals:
    """What gets through to a unit of what comes to it."""
    for one in kept:
        if one.of_arrivals is not None and one.on == unit:
            coming = one.of_arrivals(coming)
    return coming


def _compared(found: list[bytes], planned: list[bytes]) -> Came:
    """What was heard, against what should come."""
    if found == planned:
        return Came.AS_PLANNED
    if not found:
        return Came.NOTHING
    rest = iter(planned)
    return Came.LESS if all(one in rest for one in found) else Came.OTHER


def _without_swap(scene: Scene) -> Scene:
    """A board with one good cable in place of another is the board as it stands."""
    return AS_IT_STANDS if scene.plugged is Plugged.CABLE_SWAPPED else scene


def _keys(changes: Iterable[Change]) -> frozenset[str]:
    return frozenset(one.alike or one.key for one in changes)


def judged(reception: Reception, goal: Goal, *, unit: Unit, planned: Unit) -> Seen:
    """What was received, as it looks at the unit against what was wanted of the planned one."""
    asked = goal.program is not None and goal.program.wire is not None
    knobs = _knobs_right(reception, goal)
    moved = bool(reception.values or reception.before_program or reception.flips)
    if not asked:
        if knobs and reception.program is None:
            return Seen.RIGHT
        return Seen.KNOBS_WRONG if moved or reception.program is not None else Seen.NOTHING
    if reception.program is None:
        return Seen.KNOBS_ONLY if moved else Seen.NOTHING
    program = _which_program(reception.program, goal, unit=unit, planned=planned)
    return Seen.KNOBS_WRONG if program is Seen.RIGHT and not knobs else program


def _knobs_right(reception: Reception, goal: Goal) -> bool:
    unseen = (ControlKind.MOMENTARY, ControlKind.TOGGLE_ANY)
    return all(
        reception.values.get(one.control.id) == one.value.wire
        for one in goal.controls
        if isinstance(one.value, Value) and one.control.kind not in unseen
    )


def _which_program(found: WireProgram, goal: Goal, *, unit: Unit, planned: Unit) -> Seen:
    """The program that a unit shows, by its label, against the one that was asked for."""
    heard, meant = unit.chart.programs, planned.chart.programs
    wire = goal.program.wire if goal.program is not None else None
    if heard is None or meant is None or wire is None:
        return Seen.RIGHT if found == wire else Seen.ANOTHER
    if heard is meant and found == wire:
        return Seen.RIGHT
    here, there = wire_to_label(heard, found), wire_to_label(meant, wire)
    if here == there:
        return Seen.RIGHT
    places = [place_of(meant, label) for label in (here, there) if label is not None]
    if len(places) < len((here, there)) or None in places:
        return Seen.ANOTHER
    away = (places[0] or 0) - (places[1] or 0)
    return {1: Seen.ONE_ABOVE, -1: Seen.ONE_BELOW}.get(away, Seen.ANOTHER)
