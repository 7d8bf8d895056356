"""Which cables to make: the way of each over the board, its length, its ends, its wiring."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

from thruline.plan.cable_kinds import (
    ADAPTER_LONGEST,
    MIDI,
    PLUGS,
    CableKind,
    kind_of,
    made_length,
    sold_length,
)
from thruline.plan.routes import Board, Box, Leaves, Mouth, Point, length_of, mouth_of, turning
from thruline.plan.sound_links import missing_sound_cables
from thruline.plan.wiring import as_it_should_be, socket_of
from thruline.rig.cable import Cable, Jack
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig

LOOSE = 40
"""Beside the slack in percent, so that a unit can be lifted, mm."""
NOT_WRITTEN = "its length was not written"
TOO_MUCH = 300
"""A cable is too long when it has more than this, and as much again as it needs, to be coiled."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """How cables are to be: slack in percent, all anew or only what is missing, sold or made."""

    slack: int = 10
    remake: bool = False
    sold: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class CablePlan:
    """One cable. `cable` is as it should be, `was` as the document has it.

    `runs` is the way in mm, None when it cannot be told where it goes; `length` what it shall
    have. `says` is why, and what to mind. `is_added` is for one that the document does not have.
    """

    number: str
    kind: CableKind
    was: Cable
    cable: Cable
    leaves: tuple[Leaves, Leaves]
    way: tuple[Point, ...]
    runs: int | None
    length: int | None
    is_made: bool
    says: tuple[str, ...]
    is_added: bool = False

    @property
    def ends(self) -> tuple[str, str]:
        """Both plugs with their direction."""
        first, second = (
            plug if leaves is Leaves.STRAIGHT else f"{plug} {leaves}"
            for plug, leaves in zip(self.cable.plugs, self.leaves, strict=True)
        )
        return first, second


@dataclass(frozen=True, slots=True, kw_only=True)
class _Route:
    """A way with the ends it asks for; `notes` say what does not fit."""

    leaves: tuple[Leaves, Leaves]
    way: tuple[Point, ...]
    runs: int
    notes: tuple[str, ...] = ()


def plan_cables(rig: Rig, wish: Wish) -> tuple[CablePlan, ...]:
    """Every cable of the rig that is not mains, numbered by its kind; then what the sound lacks."""
    board = Board(tuple(box for box in map(box_of, rig.units.values()) if box is not None))
    counts: dict[str, int] = {}
    plans = []
    missing = tuple(missing_sound_cables(rig))
    for was in (*rig.cables, *missing):
        cable = was if was in missing else as_it_should_be(rig, was)
        if "mains" in cable.plugs:
            continue
        start, stop = socket_of(rig, cable.start), socket_of(rig, cable.stop)
        kind = kind_of(start.kind, stop.kind, cable.plugs)
        counts[kind.letter] = counts.get(kind.letter, 0) + 1
        number = f"{kind.letter}{counts[kind.letter]}"
        route = _route(rig, board, cable, bend=kind.bend)
        plan = _planned(number, kind, (was, cable), route=route, wish=wish, rig=rig)
        plans.append(_added(plan) if was in missing else plan)
    return tuple(plans)


def _added(plan: CablePlan) -> CablePlan:
    """A cable that the document does not have yet: it is made if its length can be told."""
    says = tuple(one for one in plan.says if one != NOT_WRITTEN)
    return replace(
        plan,
        is_added=True,
        is_made=plan.length is not None,
        says=("the sound goes this way, and no cable is written for it", *says),
    )


def box_of(unit: Unit) -> Box | None:
    """Where a unit stands; None when its place or its size is not known."""
    place, size = unit.place, unit.chart.size
    if place is None or size is None:
        return None
    return Box(x=place.x, y=place.y, width=size.width, depth=size.depth, turn=place.turn)


def _mouth(rig: Rig, jack: Jack) -> Mouth | None:
    box, spread = box_of(rig.units[jack.unit]), socket_of(rig, jack).place
    return None if box is None or spread is None else mouth_of(box, spread.side, spread.along)


def _planned(
    number: str,
    kind: CableKind,
    cables: tuple[Cable, Cable],
    *,
    route: _Route | None,
    wish: Wish,
    rig: Rig,
) -> CablePlan:
    was, cable = cables
    needs = None if route is None else route.runs * (100 + wish.slack) / 100 + LOOSE
    other = cable.plugs != was.plugs or cable.joins != was.joins
    length, is_made = _length(was, needs, other=other, wish=wish)
    says = [*_why(rig, was, route, needs=needs, is_made=is_made), *_changes(was, cable)]
    says += [*(route.notes if route else ()), *_limits(kind, cable, length)]
    return CablePlan(
        number=number,
        kind=kind,
        was=was,
        cable=cable,
        leaves=route.leaves if route else (Leaves.STRAIGHT, Leaves.STRAIGHT),
        way=route.way if route else (),
        runs=route.runs if route else None,
        length=length,
        is_made=is_made,
        says=tuple(says),
    )


def _length(was: Cable, needs: float | None, *, other: bool, wish: Wish) -> tuple[int | None, bool]:
    """The length that a cable shall have, and whether it has to be made."""
    rounded = sold_length if wish.sold else made_length
    if needs is None:
        return was.length, was.length is not None and (other or wish.remake)
    if wish.remake or other or was.length is None or was.length < needs:
        return rounded(needs), True
    return was.length, False


def _why(
    rig: Rig, was: Cable, route: _Route | None, *, needs: float | None, is_made: bool
) -> Iterator[str]:
    if route is None or needs is None:
        yield f"its way cannot be told: {' and '.join(_lacks(rig, was))}"
        return
    if was.length is None:
        yield NOT_WRITTEN
    elif was.length < needs:
        short = "it does not reach" if was.length < route.runs else "it would be tight"
        yield f"{was.length} mm was written, and {short}"
    elif not is_made and was.length > 2 * needs + TOO_MUCH:
        yield f"it stays; {was.length - math.ceil(needs)} mm of it are to be coiled"


def _lacks(rig: Rig, cable: Cable) -> Iterator[str]:
    for jack in dict.fromkeys((cable.start, cable.stop)):
        unit = rig.units[jack.unit]
        if unit.place is None:
            yield f"{unit.name} has no place on the board"
        elif unit.chart.size is None:
            yield f"chart {unit.chart.id} gives no size"
        elif socket_of(rig, jack).place is None:
            yield f"chart {unit.chart.id} does not say where {jack.socket} is"


def _changes(was: Cable, cable: Cable) -> Iterator[str]:
    if was.plugs != cable.plugs:
        yield f"plugs {'/'.join(was.plugs)} do not fit the sockets"
    elif was.joins != cable.joins:
        yield f'wired "{was.wiring}" nothing gets through; "{cable.wiring}" carries'


def _limits(kind: CableKind, cable: Cable, length: int | None) -> Iterator[str]:
    if length is None:
        return
    mixed = kind is MIDI and len({plug.startswith("din") for plug in cable.plugs}) > 1
    longest = ADAPTER_LONGEST if mixed else kind.longest
    if longest is not None and length > longest:
        yield f"longer than {longest} mm, the most for this kind"


_Start = tuple[Leaves, tuple[Point, ...]]
"""How a cable leaves a socket, and the points that it then passes for sure."""


def _route(rig: Rig, board: Board, cable: Cable, *, bend: int) -> _Route | None:
    """The shortest of the ways that its plugs allow; None when an end of it is nowhere."""
    start, stop = (_mouth(rig, jack) for jack in (cable.start, cable.stop))
    if start is None or stop is None:
        return None
    ends = tuple(zip((cable.start, cable.stop), (start, stop), cable.plugs, strict=True))
    choices = [list(_leaving(board, mouth, plug, bend=bend)) for _, mouth, plug in ends]
    notes = tuple(
        f"there is no room for a {plug} plug at {jack}: move a unit"
        for (jack, _, plug), ways in zip(ends, choices, strict=True)
        if not ways
    )
    routes = [
        _Route(leaves=(first[0], second[0]), way=way, runs=_runs(way, bend))
        for first, second in product(*choices)
        if (way := _whole(board, first[1], second[1])) is not None
    ]
    if routes:
        return min(routes, key=lambda one: one.runs)
    way = (start.at, stop.at)
    crow = "no way around the units was found: measured straight across"
    straight = (Leaves.STRAIGHT, Leaves.STRAIGHT)
    return _Route(leaves=straight, way=way, runs=_runs(way, bend), notes=(*notes, crow))


def _leaving(board: Board, mouth: Mouth, plug: str, *, bend: int) -> Iterator[_Start]:
    """The ways out of a socket: straight where there is room for it, else angled."""
    size = PLUGS[plug]
    far = size.straight + bend
    if board.room(mouth, far) >= far:
        yield Leaves.STRAIGHT, (mouth.at, mouth.at.moved(mouth.away, far))
    elif size.angled is not None and board.room(mouth, size.angled) >= size.angled:
        turn = mouth.at.moved(mouth.away, size.angled)
        for leaves in (Leaves.LEFT, Leaves.RIGHT):
            beyond = turn.moved(mouth.sideways(leaves), bend)
            if not board.covers(beyond):
                yield leaves, (mouth.at, turn, beyond)


def _whole(
    board: Board, first: Sequence[Point], second: Sequence[Point]
) -> tuple[Point, ...] | None:
    way = board.way(first[-1], second[-1])
    return None if way is None else (*first[:-1], *way, *reversed(second[:-1]))


def _runs(way: Sequence[Point], bend: int) -> int:
    """The length of a way in mm; each turn swings out by some of its bend."""
    return math.ceil(length_of(way) + turning(way) * bend / 2)
