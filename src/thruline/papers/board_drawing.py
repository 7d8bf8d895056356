"""The board from above as a drawing to scale: units with their numbers, cables with theirs.

One drawing of the units, then one for each kind of cable. Letters stay the same size whatever the
scale; a name that does not fit into its unit is left to the table of units.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import TypeAlias

from thruline.papers.book import Drawing
from thruline.papers.book_faces import FACES
from thruline.papers.colours import PRINT
from thruline.papers.paper import Section, table_of
from thruline.papers.svg import element, points, text_of
from thruline.papers.text_width import text_width, wrapped
from thruline.plan.cables import CablePlan, box_of
from thruline.plan.routes import Box, Point
from thruline.rig.unit import Unit
from thruline.rig.whole import Rig

POINTS_A_MM = 72 / 25.4
ROOM = (660.0, 380.0)
"""Points that a drawing may take on the smallest paper, turned on its side."""
SCALES = (1, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 100)
NUMBER, NAME, CABLE = 11.0, 7.0, 7.0
EDGE = 8.0
HOW_PLACED = (
    "Place: mm from the left and from the back edge to the unit's left back corner; turned "
    "clockwise. Size: width, depth and height in mm."
)
BAR_MM = 100

_Rect: TypeAlias = tuple[float, float, float, float]
"""Left, top, right and bottom."""


@dataclass(frozen=True)  # without slots: measures are worked out once
class _Sheet:
    """What is drawn, and how many points a mm are."""

    rig: Rig
    plans: tuple[CablePlan, ...]

    @cached_property
    def boxes(self) -> dict[str, Box]:
        return {one.id: box for one in self.rig.units.values() if (box := box_of(one)) is not None}

    @cached_property
    def bounds(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom of all that is drawn, mm."""
        spots = [point for box in self.boxes.values() for point in box.corners(0)]
        spots += [point for plan in self.plans for point in plan.way]
        if self.rig.board is not None:
            spots += [Point(0, 0), Point(self.rig.board.width, self.rig.board.depth)]
        across, down = [one.x for one in spots], [one.y for one in spots]
        return min(across), min(down), max(across), max(down)

    @cached_property
    def ratio(self) -> float:
        """How many mm of the board one mm of paper stands for."""
        left, top, right, bottom = self.bounds
        wants = max(
            (right - left) * POINTS_A_MM / (ROOM[0] - 2 * EDGE),
            (bottom - top) * POINTS_A_MM / (ROOM[1] - 2 * EDGE),
        )
        return next((one for one in SCALES if one >= wants), math.ceil(wants))

    @property
    def a_mm(self) -> float:
        return POINTS_A_MM / self.ratio

    @property
    def size(self) -> tuple[float, float]:
        left, top, right, bottom = self.bounds
        return (right - left) * self.a_mm + 2 * EDGE, (bottom - top) * self.a_mm + 2 * EDGE + 22

    def at(self, point: Point) -> tuple[float, float]:
        left, top, _, _ = self.bounds
        return (point.x - left) * self.a_mm + EDGE, (point.y - top) * self.a_mm + EDGE


def numbered(rig: Rig) -> dict[str, int]:
    """The number of every unit, in the order of the document."""
    return {name: place for place, name in enumerate(rig.units, 1)}


def board_drawings(rig: Rig, plans: Sequence[CablePlan]) -> Iterator[Drawing]:
    """The units, then each kind of cable; nothing where no unit has a place and a size."""
    sheet = _Sheet(rig, tuple(plans))
    if not sheet.boxes:
        return
    scale = f"1 to {sheet.ratio:g}"
    yield _drawing(sheet, (), title=f"The board from above, {scale}", about="board")
    for kind in dict.fromkeys(plan.kind for plan in plans):
        those = tuple(plan for plan in plans if plan.kind is kind and plan.way)
        if those:
            title = f"{kind.name[0].upper()}{kind.name[1:]} cables, {scale}"
            yield _drawing(sheet, those, title=title, about=f"cables:{kind.letter}")


def _drawing(sheet: _Sheet, plans: tuple[CablePlan, ...], *, title: str, about: str) -> Drawing:
    width, height = sheet.size
    taken: list[_Rect] = []
    parts = [*_ground(sheet)]
    for unit in sheet.rig.units.values():
        parts += _unit(sheet, unit, taken=taken, named=not plans)
    parts += [_line(sheet, plan) for plan in plans]
    for plan in plans:
        parts += _cable_number(sheet, plan, taken)
    parts += _bar(sheet)
    svg = element(
        "svg",
        *parts,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {width:g} {height:g}",
        font_family=FACES,
    )
    off = [one.name for one in sheet.rig.units.values() if one.id not in sheet.boxes]
    says = "Its back edge is at the top. Numbers of units are those of the table on the first page."
    if off:
        says += f" Without a place or a size, so not drawn: {', '.join(off)}."
    return Drawing(
        title=title,
        svg=svg,
        width=width,
        height=height,
        scale=1.0,
        alt=f"{title}: {len(sheet.boxes)} units, {len(plans)} cables drawn",
        says=says,
        wide=True,
        about=about,
    )


def _ground(sheet: _Sheet) -> Iterator[str]:
    board = sheet.rig.board
    if board is not None:
        x, y = sheet.at(Point(0, 0))
        yield element(
            "rect", x=x, y=y, width=board.width * sheet.a_mm, height=board.depth * sheet.a_mm,
            fill="none", stroke=PRINT.ink, stroke_width=1.4,
        )  # fmt: skip


def _unit(sheet: _Sheet, unit: Unit, *, taken: list[_Rect], named: bool) -> Iterator[str]:
    box = sheet.boxes.get(unit.id)
    if box is None:
        return
    corners = [sheet.at(point) for point in box.corners(0)]
    yield element(
        "polygon", points=points(corners), fill="#F1EFEA", stroke=PRINT.ink, stroke_width=0.8
    )
    x = sum(one for one, _ in corners) / 4
    y = sum(other for _, other in corners) / 4
    wide = max(one for one, _ in corners) - min(one for one, _ in corners)
    tall = max(other for _, other in corners) - min(other for _, other in corners)
    if box.turn % 90:  # only what fits into a turned unit whichever way it lies
        wide = tall = min(box.width, box.depth) * sheet.a_mm * 0.7
    number = str(numbered(sheet.rig)[unit.id])
    rows = wrapped(unit.name, wide - 4, size=NAME) if named else []
    high = NUMBER + len(rows) * (NAME + 1)
    if high > tall - 2 or any(text_width(row, NAME) > wide - 4 for row in rows):
        rows, high = [], NUMBER
    top = y - high / 2
    yield _text(x, top + NUMBER * 0.8, number, size=NUMBER, bold=True)
    for place, row in enumerate(rows):
        yield _text(x, top + NUMBER + (place + 0.8) * (NAME + 1), row, size=NAME)
    across = text_width(number, NUMBER, bold=True) / 2
    taken.append((x - across, top, x + across, top + NUMBER))


def _text(x: float, y: float, says: str, *, size: float, bold: bool = False) -> str:
    return element(
        "text", text_of(says), x=x, y=y, font_size=size, text_anchor="middle", fill=PRINT.ink,
        font_weight="700" if bold else None,
    )  # fmt: skip


def _line(sheet: _Sheet, plan: CablePlan) -> str:
    return element(
        "polyline", points=points(map(sheet.at, plan.way)), fill="none", stroke=PRINT.lines[0],
        stroke_width=1.3, stroke_linejoin="round",
    )  # fmt: skip


def _cable_number(sheet: _Sheet, plan: CablePlan, taken: list[_Rect]) -> Iterator[str]:
    """The number on its line, at the first spot where it covers no other number."""
    wide, high = text_width(plan.number, CABLE, bold=True) + 3, CABLE + 2
    spots = list(_spots([sheet.at(point) for point in plan.way]))
    for x, y in sorted(spots, key=lambda one: abs(spots.index(one) - len(spots) / 2)):
        place = (x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
        if not any(_covers(place, other) for other in taken):
            taken.append(place)
            yield element(
                "rect", x=place[0], y=place[1], width=wide, height=high, fill=PRINT.ground,
                stroke=PRINT.lines[0], stroke_width=0.4,
            )  # fmt: skip
            yield _text(x, y + CABLE * 0.34, plan.number, size=CABLE, bold=True)
            return


def _spots(way: Sequence[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """Places along a way, a few points apart."""
    for (x0, y0), (x1, y1) in pairwise(way):
        steps = max(1, int(math.hypot(x1 - x0, y1 - y0) // 6))
        for step in range(steps):
            share = (step + 0.5) / steps
            yield x0 + (x1 - x0) * share, y0 + (y1 - y0) * share


def _covers(one: _Rect, other: _Rect) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _bar(sheet: _Sheet) -> Iterator[str]:
    """A bar of 100 mm of the board, to hold a ruler to."""
    y = sheet.size[1] - 8
    long = BAR_MM * sheet.a_mm
    yield element(
        "path", d=f"M{EDGE} {y - 3:.2f}v3h{long:.2f}v-3", fill="none", stroke=PRINT.ink,
        stroke_width=0.8,
    )  # fmt: skip
    yield element(
        "text", f"{BAR_MM} mm on the board", x=EDGE + long + 5, y=y, font_size=NAME, fill=PRINT.ink
    )


def units_section(rig: Rig) -> Section:
    """Every unit with its number, model, place and size."""
    rows = []
    for unit in rig.units.values():
        size = unit.chart.size
        place = "" if unit.place is None else f"{unit.place.x}, {unit.place.y}"
        if unit.place is not None and unit.place.turn:
            place += f", turned {unit.place.turn}°"
        rows.append(
            (
                str(numbered(rig)[unit.id]),
                unit.name,
                unit.chart.full_name,
                unit.chart.kind,
                place or "no place",
                "?" if size is None else f"{size.width} × {size.depth} × {size.height}",
            )
        )
    size = rig.board
    note = "" if size is None else f"The board is {size.width} mm wide and {size.depth} mm deep. "
    return Section(
        title="Units",
        table=table_of(("", "unit", "model", "kind", "place", "size"), rows),
        notes=(f"{note}{HOW_PLACED}",),
        about="units",
    )
