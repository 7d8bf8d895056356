"""Two units that are to stand on the same ground."""

from collections.abc import Iterator
from itertools import combinations

from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_unit, board
from thruline.proof.finding import Result, Severity
from thruline.proof.rule import Rule, rule_id
from thruline.rig.footprints import corners_of, overlap_mm
from thruline.rig.unit import Unit


def _look(case: Case) -> Iterator[Result]:
    placed = [unit for unit in case.rig.units.values() if unit.place is not None]
    for unit in placed:
        if unit.chart.size is None and len(placed) > 1:
            yield RULE.untold(
                f"whether {unit.name} stands on another unit cannot be told",
                unit.address.child("place"),
                lacks=f"size in chart {unit.chart.id}",
            )
    known = [(unit, corners) for unit in placed if (corners := corners_of(unit)) is not None]
    for (first, here), (second, there) in combinations(known, 2):
        deep = overlap_mm(here, there)
        if deep:
            yield RULE.finding(
                f"{first.name} and {second.name} stand on each other, by {deep:.0f} mm",
                second.address.child("place"),
                first.address.child("place"),
                evidence=[facts((first.name, _stands(first)), (second.name, _stands(second)))],
            )


def _stands(unit: Unit) -> str:
    place, size = unit.place, unit.chart.size
    if place is None or size is None:
        return "not known"
    turn = f", turned by {place.turn} degrees" if place.turn else ""
    return f"{size.width} x {size.depth} mm, left back corner at {place.x}, {place.y}{turn}"


def _two(x: int) -> tuple[str, str]:
    return (
        a_unit("delay", "bramley-delay", "channel = 3", "place = { x = 10, y = 10 }"),
        a_unit("reverb", "pippin-reverb", "channel = 4", f"place = {{ x = {x}, y = 10 }}"),
    )


RULE = Rule(
    id=rule_id(__name__),
    title="Two units on the same ground",
    severity=Severity.FAULT,
    why=(
        "Their places and sizes cannot both be right, or the board cannot be built so. Measure "
        "again, or move one: a place is the unit's left back corner, and plugs need room as well."
    ),
    failing=board(*_two(60)),
    passing=board(*_two(400)),
    look_board=_look,
)
