"""Small tables for tests, made from plain lists: no units, no messages, no timing."""

import random
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from thruline.rig.cable import Jack
from thruline.rig.preset import Preset
from thruline.rig.sweep import POSITIONS, Curve, Move, Sweep
from thruline.rig.values import Control, NotUnderstood
from thruline.sameness.codes import AS_POWERED, KEEPS, NOTHING, OWN, UNTOLD
from thruline.sameness.columns import Column, ColumnKind, Layout
from thruline.sameness.effects import EffectTable, assemble
from thruline.sameness.rows import Rows
from thruline.sameness.strokes import Strokes, make_stroke


@dataclass(frozen=True)
class Hand:
    """One column moved by one pedal, on the presets with these places."""

    pedal: int
    on_recall: bool
    presets: tuple[int, ...]
    column: int
    stairs: tuple[int, ...]


@dataclass(frozen=True)
class Scene:
    """`effects` are codes, preset by preset; `power_up` has one code a column."""

    effects: tuple[tuple[int, ...], ...]
    power_up: tuple[int, ...]
    hands: tuple[Hand, ...] = ()

    @property
    def presets(self) -> range:
        return range(len(self.effects))

    @property
    def columns(self) -> range:
        return range(len(self.power_up))

    def with_effect(self, preset: int, column: int, code: int) -> "Scene":
        rows = [list(row) for row in self.effects]
        rows[preset][column] = code
        return replace(self, effects=tuple(tuple(row) for row in rows))

    def reordered(self, order: Sequence[int]) -> "Scene":
        """The same with its presets in another order: `order` names the old places."""
        where = {old: new for new, old in enumerate(order)}
        return replace(
            self,
            effects=tuple(self.effects[old] for old in order),
            hands=tuple(
                replace(hand, presets=tuple(sorted(where[row] for row in hand.presets)))
                for hand in self.hands
            ),
        )


def scene(
    *effects: Sequence[int], power_up: Sequence[int] = (), hands: Sequence[Hand] = ()
) -> Scene:
    width = len(effects[0]) if effects else len(power_up)
    return Scene(
        effects=tuple(tuple(row) for row in effects),
        power_up=tuple(power_up) or (AS_POWERED,) * width,
        hands=tuple(hands),
    )


def hand(
    column: int, stairs: Sequence[int], *presets: int, pedal: int = 1, on_recall: bool = False
) -> Hand:
    """A sweep of one column; few stairs are stretched over all places of the pedal."""
    count = len(stairs)
    whole = tuple(stairs[place * count // POSITIONS] for place in range(POSITIONS))
    return Hand(pedal, on_recall, tuple(presets), column, whole)


def control(number: int, **more: object) -> Control:
    return Control(id=f"control-{number}", name=f"Control {number}", number=number, **more)


def layout(power_up: Sequence[int]) -> Layout:
    columns = tuple(
        Column(
            unit="delay",
            kind=ColumnKind.CONTROL,
            part=f"control-{number}",
            power_up=code,
            control=control(number),
        )
        for number, code in enumerate(power_up)
    )
    return Layout(
        columns=columns,
        units=(),
        loops={},
        unit_of=np.full(len(columns), -1, np.intp),
        stored=np.zeros(len(columns), np.int8),
        is_bank=np.zeros(len(columns), np.bool_),
        power_up=np.array(power_up, np.int32),
    )


def strokes(one: Scene) -> Strokes:
    curve = Curve("linear")
    unwritten = NotUnderstood("", "", "")
    found = []
    for number, hand_ in enumerate(hand_ for hand_ in one.hands if hand_.presets):
        sweep = Sweep(
            name=f"sweep {number}",
            pedal=Jack("feet", f"exp-{hand_.pedal}"),
            presets=tuple(row + 1 for row in hand_.presets),
            moves=(),
        )
        move = Move(
            unit="delay", control=control(hand_.column), heel=unwritten, toe=unwritten, curve=curve
        )
        found.append(
            make_stroke(
                sweep,
                move,
                column=hand_.column,
                rows=np.array(hand_.presets, np.intp),
                stairs=np.array(hand_.stairs, np.int32),
                on_recall=hand_.on_recall,
            )
        )
    return Strokes(strokes=tuple(found))


def table(one: Scene, before: EffectTable | None = None) -> EffectTable:
    """The table of a scene; it goes on from one before if only effects differ."""
    effects = np.array(one.effects, np.int32).reshape(len(one.effects), len(one.power_up))
    presets = [Preset(number=row + 1, name=f"P{row + 1}", goals=()) for row in one.presets]
    return assemble(
        layout(one.power_up) if before is None else before.layout,
        presets,
        Rows(effects, effects == KEEPS),
        strokes=strokes(one) if before is None else before.strokes,
        before=before,
    )


def some_code(chance: random.Random) -> int:
    """An effect: mostly kept, or one of few values, so that equal ones meet."""
    return chance.choice((KEEPS, KEEPS, KEEPS, 5, 5, 60, 110, OWN + 3, OWN + 4, UNTOLD))


def some_scene(chance: random.Random, *, holes: bool = True) -> Scene:
    """Two to four presets, one to three columns, up to three sweeps on two pedals."""
    count, width = chance.randint(1, 4), chance.randint(1, 3)
    plain = chance.random() < 0.5
    codes = (KEEPS, 5, 5, 60) if plain else None
    effects = [
        [chance.choice(codes) if codes else some_code(chance) for _ in range(width)]
        for _ in range(count)
    ]
    recall = {1: chance.random() < 0.5, 2: chance.random() < 0.5}
    values = (5, 60, 110, NOTHING) if holes else (5, 60, 110)
    hands = []
    for _ in range(chance.choice((0, 1, 1, 2, 3))):
        pedal = chance.choice((1, 1, 2))
        presets = [row for row in range(count) if chance.random() < 0.7]
        steps = [*chance.sample(values, 2), chance.choice(values)]
        if sum(step >= 0 for step in set(steps)) < 2:
            steps = [5, 110, 60]
        column = chance.randrange(width)
        hands.append(hand(column, steps, *presets, pedal=pedal, on_recall=recall[pedal]))
    power_up = [chance.choice((5, 60, AS_POWERED)) for _ in range(width)]
    return scene(*effects, power_up=power_up, hands=hands)
