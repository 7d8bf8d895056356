"""The closed form against every short history, and what must hold of any rig."""

import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sameness import oracle
from tests.sameness.scenes import Scene, hand, scene, some_code, some_scene, table
from thruline.sameness.codes import AS_POWERED, KEEPS, OWN, UNTOLD
from thruline.sameness.held import Cause, Entering, Held, cause_of, hold, values_of

SEEDS = st.integers(0, 1 << 30)


def made(seed: int) -> tuple[random.Random, Scene]:
    chance = random.Random(seed)
    return chance, some_scene(chance)


def entering(held: Held) -> list[list[Entering]]:
    rows, columns = held.entering.shape
    return [[held.finds(row, column) for column in range(columns)] for row in range(rows)]


def same(one: Held, other: Held) -> bool:
    spans = all(
        np.array_equal(getattr(one.spans, name), getattr(other.spans, name))
        for name in type(one.spans).__slots__
    )
    return spans and np.array_equal(one.entering, other.entering)


@settings(max_examples=400)
@given(SEEDS)
def test_every_preset_finds_what_histories_show(seed: int) -> None:
    _, one = made(seed)
    found = entering(hold(table(one)))
    for column in one.columns:
        states = oracle.entered(one, column)
        for preset in one.presets:
            recalls = [hand.on_recall for hand in oracle.hands_on(one, preset, column)]
            if (
                sum(recalls) < 2
            ):  # which of two places that are sent stays is a fight, not a leftover
                assert found[preset][column] is oracle.classify(states[preset], preset), (
                    preset,
                    column,
                )


@settings(max_examples=300)
@given(SEEDS)
def test_the_values_left_are_those_that_histories_leave(seed: int) -> None:
    _, one = made(seed)
    keeper = Scene(
        effects=(*one.effects, tuple(KEEPS for _ in one.columns)),
        power_up=one.power_up,
        hands=one.hands,
    )
    held = hold(table(keeper))
    for column in one.columns:
        states = oracle.entered(keeper, column)[-1]
        values = values_of(held, column)
        assert set(values.codes) == {state.code for state in states} - {UNTOLD}
        assert values.untold == (UNTOLD in {state.code for state in states})


@given(SEEDS)
def test_setting_a_column_ends_its_leftover(seed: int) -> None:
    chance, one = made(seed)
    preset, column = chance.choice(one.presets), chance.choice(one.columns)
    held = hold(table(one.with_effect(preset, column, chance.choice((5, 60, 110)))))
    assert held.finds(preset, column) in (Entering.ONE, Entering.PEDAL)


@given(SEEDS)
def test_another_order_of_presets_changes_nothing_but_the_order(seed: int) -> None:
    chance, one = made(seed)
    order = chance.sample(one.presets, len(one.presets))
    plain, mixed = hold(table(one)), hold(table(one.reordered(order)))
    assert np.array_equal(plain.entering[order], mixed.entering)
    assert [cause_of(plain, column) for column in one.columns] == [
        cause_of(mixed, column) for column in one.columns
    ]


@given(SEEDS)
def test_going_on_from_before_is_as_good_as_anew(seed: int) -> None:
    chance, one = made(seed)
    before = table(one)
    held = hold(before)
    for _ in range(6):
        preset, column = chance.choice(one.presets), chance.choice(one.columns)
        one = one.with_effect(preset, column, some_code(chance))
        before = table(one, before)
        held = hold(before, held)
        assert same(held, hold(before))


@pytest.mark.parametrize(
    ("one", "cause"),
    [
        (scene((110,), (64,), (KEEPS,), power_up=[64]), Cause.PRESETS),
        (scene((OWN + 1,), (OWN + 2,), (KEEPS,), power_up=[64]), Cause.PRESETS),
        (scene((64,), (KEEPS,), power_up=[64], hands=[hand(0, [0, 64, 127], 0)]), Cause.PEDAL),
        (scene((110,), (KEEPS,), power_up=[64]), Cause.POWER_UP),
        (scene((110,), (KEEPS,), power_up=[AS_POWERED]), Cause.POWER_UP),
        (scene((64,), (KEEPS,), power_up=[64]), None),
        (scene((KEEPS,), (KEEPS,), power_up=[AS_POWERED]), None),
    ],
)
def test_cause(one: Scene, cause: Cause | None) -> None:
    held = hold(table(one))
    assert cause_of(held, 0) is cause
    kept = held.finds(len(one.effects) - 1, 0)
    assert kept is (Entering.ONE if cause is None else Entering.SEVERAL)


def test_a_pedal_that_is_sent_on_recall_leaves_nothing_to_chance() -> None:
    held = hold(table(scene((64,), (KEEPS,), hands=[hand(0, [0, 127], 0, 1, on_recall=True)])))
    assert entering(held) == [[Entering.PEDAL], [Entering.PEDAL]]


def test_a_volume_pedal_is_no_leftover() -> None:
    held = hold(table(scene((KEEPS,), (KEEPS,), power_up=[100], hands=[hand(0, [0, 127], 0, 1)])))
    assert entering(held) == [[Entering.PEDAL], [Entering.PEDAL]]
    assert cause_of(held, 0) is None


def test_a_volume_pedal_that_one_preset_lacks_is_one() -> None:
    swell = hand(0, [0, 127], 0, 1)
    held = hold(table(scene((KEEPS,), (KEEPS,), (KEEPS,), power_up=[100], hands=[swell])))
    assert {held.finds(row, 0) for row in range(3)} == {Entering.SEVERAL}
    assert cause_of(held, 0) is Cause.PEDAL


def test_a_message_that_may_be_obeyed_is_not_a_value() -> None:
    held = hold(table(scene((UNTOLD,), (KEEPS,), (5,), power_up=[5])))
    assert [row[0] for row in entering(held)] == [Entering.UNTOLD, Entering.UNTOLD, Entering.ONE]


def test_without_presets_there_is_nothing_to_find() -> None:
    held = hold(table(Scene(effects=(), power_up=(5, 60))))
    assert held.entering.shape == (0, 2)
