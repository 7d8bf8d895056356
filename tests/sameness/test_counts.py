"""Counts against every cell visited one by one."""

import random

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sameness import oracle
from tests.sameness.scenes import Scene, hand, scene, some_code, some_scene, table
from thruline.sameness.codes import AS_POWERED, KEEPS, OWN, UNTOLD
from thruline.sameness.counts import (
    Counts,
    cells_off,
    changes_off,
    count,
    pairs_off,
    share_of_entries,
    tally,
)
from thruline.sameness.held import Entering, hold

SEEDS = st.integers(0, 1 << 30)


def counts_of(one: Scene) -> Counts:
    return count(hold(table(one)))


def looked_at(counts: Counts, preset: int, column: int) -> bool:
    found = counts.held.finds(preset, column)
    return bool(counts.asked[preset, column]) and found in (Entering.SEVERAL, Entering.UNTOLD)


@settings(max_examples=300)
@given(SEEDS)
def test_cells_and_pairs_are_those_of_every_cell(seed: int) -> None:
    one = some_scene(random.Random(seed))
    counts = counts_of(one)
    cells, pairs = cells_off(counts), pairs_off(counts)
    hidden = 0
    for preset in one.presets:
        for column in one.columns:
            if not looked_at(counts, preset, column):
                assert cells[preset, column] == pairs[preset, column] == 0
                continue
            truth = oracle.counted(one, preset, column)
            assert (cells[preset, column], pairs[preset, column]) == (truth.cells, truth.pairs)
            hidden += truth.hidden
    assert tally(counts).cells_hidden == hidden


@given(SEEDS)
def test_a_change_is_off_when_any_column_is(seed: int) -> None:
    one = some_scene(random.Random(seed))
    counts = counts_of(one)
    found = changes_off(counts)
    for entered in one.presets:
        for left in one.presets:
            off = [
                counts.asked[entered, column] and counts.off[left, column] > 0
                for column in one.columns
            ]
            assert found[entered, left] == (entered != left and any(off))


@given(SEEDS)
def test_all_cells_are_counted(seed: int) -> None:
    one = some_scene(random.Random(seed))
    every = sum(
        len(list(oracle.ends(one, left, column)))
        for column in one.columns
        for entered in one.presets
        for left in one.presets
        if left != entered
    )
    assert tally(counts_of(one)).cells == every


@given(SEEDS)
def test_another_order_of_presets_counts_the_same(seed: int) -> None:
    chance = random.Random(seed)
    one = some_scene(chance)
    order = chance.sample(one.presets, len(one.presets))
    plain, mixed = counts_of(one), counts_of(one.reordered(order))
    assert tally(plain) == tally(mixed)
    assert np.array_equal(cells_off(plain)[order], cells_off(mixed))
    assert np.array_equal(changes_off(plain)[np.ix_(order, order)], changes_off(mixed))


@given(SEEDS)
def test_going_on_from_before_is_as_good_as_anew(seed: int) -> None:
    chance = random.Random(seed)
    one = some_scene(chance)
    before = table(one)
    counts = count(hold(before))
    for _ in range(6):
        preset, column = chance.choice(one.presets), chance.choice(one.columns)
        one = one.with_effect(preset, column, some_code(chance))
        before = table(one, before)
        counts = count(hold(before, counts.held), counts)
        fresh = count(hold(before))
        for name in ("usual", "off", "hidden", "asked"):
            assert np.array_equal(getattr(counts, name), getattr(fresh, name)), name


def test_a_clean_rig_has_nothing_off() -> None:
    found = tally(counts_of(scene((5, 60), (110, 60), (7, 60))))
    assert (found.changes, found.changes_off, found.cells_off, found.cells_hidden) == (6, 0, 0, 0)
    assert found.cells == 6 * 129 * 2


def test_one_storm_among_calm() -> None:
    counts = counts_of(scene((110,), (64,), (64,), (KEEPS,), power_up=[64]))
    assert counts.usual.tolist() == [64]
    assert pairs_off(counts)[:, 0].tolist() == [0, 0, 0, 1]
    assert cells_off(counts)[:, 0].tolist() == [0, 0, 0, 129]


def test_what_nobody_aims_at_is_not_counted() -> None:
    found = tally(counts_of(scene((OWN + 1,), (OWN + 2,), (KEEPS,))))
    assert found.cells_off == 0


def test_a_pedal_counts_place_by_place() -> None:
    swell = hand(0, [64, 127], 0)
    counts = counts_of(scene((64,), (KEEPS,), power_up=[64], hands=[swell]))
    assert cells_off(counts)[:, 0].tolist() == [0, 64]
    assert pairs_off(counts)[:, 0].tolist() == [0, 1]


def test_where_nothing_is_known_nothing_is_usual() -> None:
    counts = counts_of(scene((UNTOLD,), (UNTOLD,), (5,), (KEEPS,), power_up=[AS_POWERED]))
    assert tally(counts).cells_hidden == 2 * 129
    assert share_of_entries(counts.held)[Entering.UNTOLD] == 2


def test_many_columns_do_not_mix() -> None:
    width = 300
    rows = [[number % 100 for number in range(width)], [7] * width, [KEEPS] * width]
    counts = counts_of(scene(*rows, power_up=[7] * width))
    assert counts.usual.tolist() == [7] * width
    assert (
        cells_off(counts)[2] == [0 if number % 100 == 7 else 129 for number in range(width)]
    ).all()
