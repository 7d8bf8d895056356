"""Every witness is walked: both histories must give the codes that it tells."""

import random
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sameness import oracle
from tests.sameness.scenes import Scene, hand, scene, some_scene, table
from thruline.sameness.codes import AS_POWERED, KEEPS
from thruline.sameness.held import Entering, Held, cause_of, hold
from thruline.sameness.witness import History, witnesses


def ends_of(one: Scene, column: int, history: History, entered: int) -> set[int]:
    """The codes that a preset can find after a history; pedals may stand anywhere at first."""
    found = set()
    for places in product(oracle.PLACES, oracle.PLACES):
        states = {oracle.State(one.power_up[column], "power-up", places)}
        if history.preset is not None:
            left = history.preset.number - 1
            states = {end for one_ in states for end in oracle.recalled(one, one_, left, column)}
            if history.place is not None:
                states = {end for state in states for end in oracle.moved(one, state, left, column)}
        for state in states:
            found |= {end.code for end in oracle.recalled(one, state, entered, column)}
    return found


def needs_a_third_preset(held: Held, column: int, history: History, entered: int) -> bool:
    """Both presets are sent a pedal's place that is not obeyed everywhere."""
    follows = held.table.cover.follows[:, column]
    return history.preset is not None and bool(follows[[entered, history.preset.number - 1]].all())


@settings(max_examples=300)
@given(st.integers(0, 1 << 30))
def test_witnesses_can_be_walked(seed: int) -> None:
    one = some_scene(random.Random(seed))
    held = hold(table(one))
    for column in one.columns:
        told = list(witnesses(held, column))
        left_over = [row for row in one.presets if held.finds(row, column) is Entering.SEVERAL]
        assert [witness.entered.number - 1 for witness in told] == left_over
        for witness in told:
            assert witness.first.code != witness.second.code
            row = witness.entered.number - 1
            for history in (witness.first, witness.second):
                if needs_a_third_preset(held, column, history, row):
                    continue
                assert history.code in ends_of(one, column, history, row), (column, witness)


def test_the_nearest_presets_are_told() -> None:
    held = hold(table(scene((1,), (2,), (3,), (KEEPS,), (3,), (9,))))
    (witness,) = witnesses(held, 0)
    assert witness.entered.number == 4
    assert [one.preset.number for one in (witness.first, witness.second) if one.preset] == [3, 2]
    assert (witness.first.code, witness.second.code) == (3, 2)


def test_a_pedal_is_told_where_it_differs_most() -> None:
    swell = hand(0, [60, 110, 20], 0)
    (witness,) = witnesses(hold(table(scene((64,), (KEEPS,), power_up=[64], hands=[swell]))), 0)
    assert (witness.first.code, witness.first.sweep) == (64, None)
    assert witness.second.code == 110
    assert witness.second.sweep is not None
    assert witness.second.place == 43


def test_power_up_is_told_last() -> None:
    (witness,) = witnesses(hold(table(scene((110,), (KEEPS,)))), 0)
    assert witness.first == History(code=AS_POWERED)
    assert witness.second.preset is not None
    assert witness.second.preset.number == 1


def test_no_leftover_has_no_witness() -> None:
    held = hold(table(scene((5,), (KEEPS,), power_up=[5])))
    assert cause_of(held, 0) is None
    assert list(witnesses(held, 0)) == []
