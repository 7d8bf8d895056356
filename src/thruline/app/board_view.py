"""The board from above for a page: units to scale, their sockets, cables from socket to socket.

Millimetres; x runs to the right, y from the back towards the player. A unit is turned clockwise
about its left back corner.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations

from thruline.app.frame import Json
from thruline.app.mend import State
from thruline.app.power_view import feeds_json
from thruline.rig.cable import Cable, Jack
from thruline.rig.chart import Footprint
from thruline.rig.socket import MIDI_KINDS, Socket, SocketKind
from thruline.rig.unit import Place, Unit

UNKNOWN = Footprint(120, 120, 60)
"""What is drawn for a unit whose chart does not give its size."""
BOARD = Footprint(900, 400, 0)
"""What is drawn where the document does not give the size of the board."""
TOUCH = 1e-6

_OUTWARDS: Mapping[str, tuple[int, int]] = {
    "back": (0, -1),
    "front": (0, 1),
    "left": (-1, 0),
    "right": (1, 0),
}


@dataclass(frozen=True, slots=True)
class Point:
    """A place on the board, mm."""

    x: float
    y: float


def board_json(state: State) -> Json:
    """What the Board page shows."""
    rig = state.opened.rig
    board = rig.board or BOARD
    placed = {unit.id: unit.place for unit in rig.units.values() if unit.place is not None}
    return {
        "board": {"width": board.width, "depth": board.depth, "known": rig.board is not None},
        "units": [_unit(unit) for unit in rig.units.values()],
        "cables": [_cable(one, rig.units) for one in rig.cables],
        "power": feeds_json(rig),
        "audio": [one for one in (rig.audio.units if rig.audio else ()) if one in placed],
        "troubles": list(troubles(tuple(rig.units.values()), board)),
    }


def _unit(unit: Unit) -> Json:
    size = unit.chart.size or UNKNOWN
    return {
        "id": unit.id,
        "name": unit.name,
        "address": str(unit.address),
        "width": size.width,
        "depth": size.depth,
        "known": unit.chart.size is not None,
        "place": {"x": unit.place.x, "y": unit.place.y, "turn": unit.place.turn}
        if unit.place
        else None,
        "sockets": [
            {
                "id": socket.id,
                "kind": socket.kind.value,
                "layer": layer_of(socket),
                "marked": socket.marked or socket.id,
                "at": [point.x, point.y],
                "out": list(out),
            }
            for socket in unit.chart.sockets.values()
            for point, out in (_mouth(socket, size),)
        ],
    }


def layer_of(socket: Socket) -> str:
    """Which of the layers of the drawing a socket belongs to."""
    if socket.kind in MIDI_KINDS:
        return "midi"
    if socket.kind in (SocketKind.AUDIO_IN, SocketKind.AUDIO_OUT):
        return "audio"
    if socket.kind in (SocketKind.POWER_IN, SocketKind.POWER_OUT):
        return "power"
    return "pedals"


def _mouth(socket: Socket, size: Footprint) -> tuple[Point, tuple[int, int]]:
    """Where a socket sits on its unit, and which way is out; amid the back unless told."""
    side = socket.place.side if socket.place else "back"
    along = socket.place.along if socket.place else size.width // 2
    out = _OUTWARDS.get(side, _OUTWARDS["back"])
    match side:
        case "front":
            return Point(along, size.depth), out
        case "left":
            return Point(0, along), out
        case "right":
            return Point(size.width, along), out
        case _:
            return Point(along, 0), out


def _cable(cable: Cable, units: Mapping[str, Unit]) -> Json:
    return {
        "address": str(cable.address),
        "from": _end(cable.start),
        "to": _end(cable.stop),
        "layer": layer_of(units[cable.start.unit].chart.sockets[cable.start.socket]),
        "ends": "/".join(cable.plugs),
        "length": cable.length,
    }


def _end(jack: Jack) -> Json:
    return {"unit": jack.unit, "socket": jack.socket}


def turned(place: Place, point: Point) -> Point:
    """A point of a unit, on the board."""
    angle = math.radians(place.turn)
    across, along = math.cos(angle), math.sin(angle)
    return Point(
        place.x + point.x * across - point.y * along,
        place.y + point.x * along + point.y * across,
    )


def corners(unit: Unit) -> tuple[Point, ...]:
    """The corners of a unit on the board, in turn; none where it has no place."""
    if unit.place is None:
        return ()
    size = unit.chart.size or UNKNOWN
    own = ((0, 0), (size.width, 0), (size.width, size.depth), (0, size.depth))
    return tuple(turned(unit.place, Point(x, y)) for x, y in own)


def troubles(units: Sequence[Unit], board: Footprint) -> Iterator[Json]:
    """Units that stand in one another or over the edge."""
    placed = [unit for unit in units if unit.place is not None]
    for unit in placed:
        if any(not _is_on(point, board) for point in corners(unit)):
            yield {"units": [unit.id], "says": f"{unit.name} stands over the edge of the board"}
    for one, other in combinations(placed, 2):
        if overlap(corners(one), corners(other)):
            yield {
                "units": [one.id, other.id],
                "says": f"{one.name} and {other.name} stand in each other",
            }


def _is_on(point: Point, board: Footprint) -> bool:
    inside = -TOUCH <= point.x <= board.width + TOUCH
    return inside and -TOUCH <= point.y <= board.depth + TOUCH


def overlap(first: Sequence[Point], second: Sequence[Point]) -> bool:
    """Whether two rectangles share more than an edge: no line of their sides parts them."""
    for shape in (first, second):
        for at, start in enumerate(shape):
            stop = shape[(at + 1) % len(shape)]
            across = Point(stop.y - start.y, start.x - stop.x)
            near, far = (_span(one, across) for one in (first, second))
            if near[1] <= far[0] + TOUCH or far[1] <= near[0] + TOUCH:
                return False
    return True


def _span(shape: Sequence[Point], across: Point) -> tuple[float, float]:
    length = math.hypot(across.x, across.y)
    met = [(point.x * across.x + point.y * across.y) / length for point in shape]
    return min(met), max(met)
