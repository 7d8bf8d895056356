"""Sweeps on paper: the curve of every move over the travel of the pedal, and values to check by."""

from collections.abc import Iterator, Sequence

from thruline.papers.book import Drawing
from thruline.papers.book_faces import FACES
from thruline.papers.colours import PRINT
from thruline.papers.paper import Section, table_of
from thruline.papers.svg import element, points
from thruline.rig.sweep import POSITIONS, Move, Sweep, values_of
from thruline.rig.unit import marked
from thruline.rig.values import NotUnderstood, shown
from thruline.rig.whole import Rig

WIDTH, HEIGHT = 470.0, 190.0
LEFT, TOP, RIGHT, BOTTOM = 30.0, 10.0, 20.0, 26.0
DASHES = (None, "7 3", "2 3", "10 3 2 3", "1 2")
"""How the lines of moves are told apart without colour, in turn."""
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
PLACES = (0, 32, 64, 95, 127)
"""Where values are given: heel, a quarter, half, three quarters, toe."""


def sweep_blocks(rig: Rig) -> Iterator[Drawing | Section]:
    """For each sweep its curves, then a table of its moves."""
    for sweep in rig.sweeps:
        about = f"sweep:{sweep.name}"
        moved = [(mark_of(place), move) for place, move in enumerate(sweep.moves)]
        if any(values_of(move) for _, move in moved):
            yield Drawing(
                title=f'Sweep "{sweep.name}"',
                svg=_curves(moved),
                width=WIDTH,
                height=HEIGHT,
                scale=1.0,
                alt=f'Curves of the sweep "{sweep.name}" over the travel of its pedal',
                says=_says(rig, sweep),
                about=about,
            )
        yield Section(
            title="" if any(values_of(move) for _, move in moved) else f'Sweep "{sweep.name}"',
            table=table_of(
                ("", "moves", "curve", "heel", "a quarter", "half", "three quarters", "toe"),
                [_row(rig, mark, move) for mark, move in moved],
            ),
            notes=("On the wire, and what the unit shows.",),
        )


def mark_of(place: int) -> str:
    """The letter of a move: A to Z, then AA and so on."""
    more, letter = divmod(place, len(LETTERS))
    return (mark_of(more - 1) if more else "") + LETTERS[letter]


def _says(rig: Rig, sweep: Sweep) -> str:
    unit = rig.units.get(sweep.pedal.unit)
    where = f"{unit.name} {marked(unit, sweep.pedal.socket)}" if unit else str(sweep.pedal)
    known = {preset.number for preset in rig.presets}
    on = "all presets" if known <= set(sweep.presets) else ", ".join(map(str, sweep.presets))
    return f"Pedal at {where}; on {on}. Across: the pedal from heel to toe. Up: the value sent."


def _row(rig: Rig, mark: str, move: Move) -> tuple[str, ...]:
    unit = rig.units.get(move.unit)
    moves = f"{unit.name if unit else move.unit}: {move.control.name}"
    curve = move.curve.name
    if move.curve.points:
        curve = ", ".join(f"{travel} %: {share} %" for travel, share in move.curve.points)
    values = values_of(move)
    if not values:
        ends = [one.why if isinstance(one, NotUnderstood) else one.shown
                for one in (move.heel, move.toe)]  # fmt: skip
        return (mark, moves, curve, ends[0], "", "", "", ends[1])
    return (mark, moves, curve, *(_value(move, values[place]) for place in PLACES))


def _value(move: Move, wire: int) -> str:
    text = shown(move.control, wire)
    return str(wire) if text == str(wire) else f"{wire}: {text}"


def _curves(moved: Sequence[tuple[str, Move]]) -> str:
    known = [(mark, move, values_of(move)) for mark, move in moved]
    top = max((max(values) for _, _, values in known if values), default=127)
    most = 127 if top <= 127 else 16_383
    parts = [*_scales(most)]
    for place, (mark, _, values) in enumerate(known):
        if values:
            parts += _curve(mark, values, place=place, most=most)
    return element(
        "svg", *parts, xmlns="http://www.w3.org/2000/svg", viewBox=f"0 0 {WIDTH:g} {HEIGHT:g}",
        font_family=FACES,
    )  # fmt: skip


def _across(place: float) -> float:
    return LEFT + (WIDTH - LEFT - RIGHT) * place / (POSITIONS - 1)


def _up(value: float, most: int) -> float:
    return HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * value / most


def _scales(most: int) -> Iterator[str]:
    for share in (0, 0.25, 0.5, 0.75, 1):
        value = round(most * share)
        y, x = _up(value, most), _across((POSITIONS - 1) * share)
        for x1, y1, x2, y2 in (
            (LEFT, y, WIDTH - RIGHT, y),
            (x, TOP, x, HEIGHT - BOTTOM),
        ):
            yield element("line", x1=x1, y1=y1, x2=x2, y2=y2, stroke=PRINT.rule, stroke_width=0.5)
        yield _text(LEFT - 4, y + 2.5, str(value), anchor="end")
        word = {0: "heel", 0.5: "half", 1: "toe"}.get(share, f"{share:.0%}".replace("%", " %"))
        yield _text(x, HEIGHT - BOTTOM + 11, word, anchor="middle")


def _curve(mark: str, values: Sequence[int], *, place: int, most: int) -> Iterator[str]:
    """The staircase as it is sent, its letter on it."""
    stairs: list[tuple[float, float]] = []
    for at, value in enumerate(values):
        if stairs and value != values[at - 1]:
            stairs.append((_across(at), _up(values[at - 1], most)))
        stairs.append((_across(at), _up(value, most)))
    yield element(
        "polyline", points=points(stairs), fill="none", stroke=PRINT.line(place), stroke_width=1.4,
        stroke_dasharray=DASHES[place % len(DASHES)],
    )  # fmt: skip
    at = 6 + (place * 11) % 114
    x, y = _across(at), _up(values[at], most)
    yield element("rect", x=x - 6, y=y - 5.5, width=12, height=11, fill="#FFFFFF",
                  stroke=PRINT.line(place), stroke_width=0.6)  # fmt: skip
    yield _text(x, y + 3, mark, anchor="middle", bold=True)


def _text(x: float, y: float, says: str, *, anchor: str, bold: bool = False) -> str:
    return element(
        "text", says, x=x, y=y, font_size=8, text_anchor=anchor, fill=PRINT.ink,
        font_weight="700" if bold else None,
    )  # fmt: skip
