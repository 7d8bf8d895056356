"""Tables that go on from earlier ones, over random edits of real presets."""

import random
from dataclasses import replace

import numpy as np

from tests.sameness.boards import Looked, board, delay_chart, look, runs_of, sweep
from thruline.rig.preset import Preset
from thruline.sameness.effects import EffectTable, effect_table
from thruline.sameness.held import hold

MESSAGES = (
    "3: program 5",
    "3: program 6",
    "3: control 14 = 64",
    "3: control 14 = 65",
    "3: control 7 = 30",
    "3: control 19 = 127",
    "4: program 5",
    "4: control 14 = 1",
)


def some_messages(chance: random.Random) -> list[str]:
    return chance.sample(MESSAGES, chance.randint(0, 4))


def edited(found: Looked, row: int, messages: list[str]) -> tuple[list[Preset], list[object]]:
    """The presets and runs after one preset was given other messages."""
    changed = board([messages]).presets[0]
    presets = list(found.rig.presets)
    presets[row] = replace(changed, number=row + 1)
    (run,) = runs_of(found.rig, [presets[row]])
    return presets, [*found.runs[:row], run, *found.runs[row + 1 :]]


def equal(one: EffectTable, other: EffectTable) -> bool:
    return np.array_equal(one.effects, other.effects) and np.array_equal(one.asks, other.asks)


def test_an_edited_preset_is_read_anew_and_only_that() -> None:
    chance = random.Random(4)
    found = look(
        board([some_messages(chance) for _ in range(8)], [sweep(("delay", "mix", 0, 127))])
    )
    table, held = found.table, hold(found.table)
    for _ in range(40):
        row = chance.randrange(8)
        presets, runs = edited(found, row, some_messages(chance))
        after = effect_table(found.layout, presets, runs, strokes=found.strokes, before=table)
        fresh = effect_table(found.layout, presets, runs, strokes=found.strokes)
        assert equal(after, fresh)
        held_after = hold(after, held)
        assert np.array_equal(held_after.entering, hold(fresh).entering)
        found = replace(found, rig=replace(found.rig, presets=tuple(presets)), runs=tuple(runs))
        table, held = after, held_after


def test_an_unchanged_rig_shares_everything() -> None:
    found = look(board([["3: control 14 = 64"], []]))
    again = effect_table(
        found.layout, found.rig.presets, found.runs, strokes=found.strokes, before=found.table
    )
    assert again.own is found.table.own
    assert again.cover is found.table.cover
    assert hold(again, hold(found.table)).renewed.size == 0


def test_a_loop_that_changes_is_seen_although_no_message_does() -> None:
    found = look(board([{"drive": "in"}, {}]))
    presets = [replace(found.rig.presets[0], goals=()), found.rig.presets[1]]
    after = effect_table(
        found.layout, presets, found.runs, strokes=found.strokes, before=found.table
    )
    assert equal(after, effect_table(found.layout, presets, found.runs, strokes=found.strokes))
    assert not equal(after, found.table)


def test_other_columns_start_anew() -> None:
    found = look(board([["3: control 14 = 64"], []]))
    other = look(board([["3: control 14 = 64"], []], chart=delay_chart(control=None)))
    after = effect_table(
        other.layout, other.rig.presets, other.runs, strokes=other.strokes, before=found.table
    )
    assert equal(after, other.table)
    assert np.array_equal(hold(after, hold(found.table)).entering, hold(other.table).entering)
