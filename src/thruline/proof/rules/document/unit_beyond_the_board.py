"""A unit that stands over the edge of the board."""

from collections.abc import Iterator

from thruline.base.edit import Edit, set_to
from thruline.proof.case import Case
from thruline.proof.evidence import facts
from thruline.proof.example_boards import a_unit, board
from thruline.proof.finding import Mend, Result, Severity
from thruline.proof.rule import Example, Rule, rule_id
from thruline.rig.footprints import beyond_mm, corners_of
from thruline.rig.unit import Unit


def _look(case: Case) -> Iterator[Result]:
    size = case.rig.board
    if size is None:
        return
    for unit in case.rig.units.values():
        corners = corners_of(unit)
        if corners is None:
            continue
        moves = beyond_mm(corners, size.width, size.depth)
        if any(moves):
            far = max(abs(move) for move in moves)
            xs, ys = [x for x, _ in corners], [y for _, y in corners]
            reaches = f"{min(xs):.0f} to {max(xs):.0f}, and {min(ys):.0f} to {max(ys):.0f}"
            yield RULE.finding(
                f"{unit.name} stands over the edge of the board, by {far:.0f} mm",
                unit.address.child("place"),
                evidence=[
                    facts(
                        ("board", f"{size.width} x {size.depth} mm"),
                        (unit.name, f"{reaches} mm from the left and the back"),
                    )
                ],
                mends=_moved(unit, moves),
            )


def _moved(unit: Unit, moves: tuple[float, float]) -> Iterator[Mend]:
    """Onto the board by the shortest way; nothing is asked of what may then be below it."""
    if unit.place is None:
        return
    spot = unit.address.child("place")
    edits: list[Edit] = []
    for key, at, move in zip(("x", "y"), (unit.place.x, unit.place.y), moves, strict=True):
        if move:
            edits.append(set_to(spot.child(key), round(at + move)))
    yield Mend(f"Move {unit.name} onto the board", tuple(edits))


def _placed(x: int) -> Example:
    head = 'format = 1\n[rig]\nname = "Example"\ncontroller = "feet"\n'
    unit = a_unit("delay", "bramley-delay", "channel = 3", f"place = {{ x = {x}, y = 10 }}")
    return Example(f"{head}board = {{ width = 400, depth = 300 }}\n{board(unit).rig}")


RULE = Rule(
    id=rule_id(__name__),
    title="A unit over the edge",
    severity=Severity.RISK,
    why=(
        "It does not fit on the board as it is planned: it is kicked off, the case does not close, "
        "or the plan has a slip in it. Leave the place of a unit out if it stands elsewhere."
    ),
    failing=_placed(350),
    passing=_placed(20),
    look_board=_look,
)
