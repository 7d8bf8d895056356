"""Jumps against every short history, and the cases that musicians know."""

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sameness import oracle
from tests.sameness.scenes import Scene, hand, scene, some_scene, table
from thruline.sameness.codes import AS_POWERED, KEEPS, OWN
from thruline.sameness.jumps import Jump, jumps


def only(one: Scene) -> list[Jump]:
    (found,) = jumps(table(one))
    return list(found.jumps)


@settings(max_examples=300)
@given(st.integers(0, 1 << 30))
def test_the_largest_jump_is_that_of_all_histories(seed: int) -> None:
    one = some_scene(random.Random(seed), holes=False)
    found = {
        (told.sweep.name, jump.preset.number - 1): jump
        for told in jumps(table(one))
        for jump in told.jumps
    }
    for number, moves in enumerate(one_ for one_ in one.hands if one_.presets):
        for row in moves.presets:
            jump = found.get((f"sweep {number}", row))
            together = oracle.hands_on(one, row, moves.column)
            if any(other.on_recall for other in together):
                assert jump is None
                continue
            worst = oracle.largest_leap(one, moves, row)
            if worst:
                assert jump is not None
                assert jump.steps == worst
                assert abs(jump.code - jump.to) == worst
                assert jump.to == moves.stairs[jump.place]
            elif jump is not None:
                assert jump.steps is None or jump.came_from is not None


def test_a_preset_that_sets_what_a_pedal_moves() -> None:
    (jump,) = only(scene((100,), hands=[hand(0, [0, 64, 127], 0)]))
    assert (jump.code, jump.to, jump.place, jump.steps) == (100, 0, 0, 100)
    assert jump.came_from is None


def test_nothing_jumps_when_the_place_is_sent_on_recall() -> None:
    assert jumps(table(scene((100,), hands=[hand(0, [0, 127], 0, on_recall=True)]))) == ()


def test_a_volume_pedal_jumps_after_power_up_at_most() -> None:
    swell = hand(0, [0, 127], 0, 1)
    told = only(scene((KEEPS,), (KEEPS,), power_up=[100], hands=[swell]))
    assert [(jump.steps, jump.came_from and jump.came_from.preset) for jump in told] == [
        (100, None),
        (100, None),
    ]


def test_a_preset_without_the_sweep_lets_the_pedal_stray() -> None:
    one = scene((KEEPS,), (KEEPS,), (KEEPS,), power_up=[100], hands=[hand(0, [0, 127], 0, 1)])
    jump = only(one)[0]
    assert jump.steps == 127
    assert jump.came_from is not None
    assert jump.came_from.preset is not None


def test_other_stairs_of_the_same_pedal() -> None:
    up, down = hand(0, [0, 64, 127], 0), hand(0, [127, 64, 0], 1)
    told = jumps(table(scene((KEEPS,), (KEEPS,), power_up=[64], hands=[up, down])))
    assert [one.worst.steps for one in told] == [127, 127]


@pytest.mark.parametrize("effects", [((OWN + 1,),), ((KEEPS,), (OWN + 1,))])
def test_what_a_program_holds_is_no_number(effects: tuple[tuple[int, ...], ...]) -> None:
    jump = only(scene(*effects, power_up=[AS_POWERED], hands=[hand(0, [0, 127], 0)]))[0]
    assert jump.steps is None
    assert jump.code == OWN + 1


def test_the_worst_is_the_largest_that_is_known() -> None:
    one = scene((OWN + 1,), (100,), (120,), hands=[hand(0, [0, 127], 0, 1, 2)])
    (found,) = jumps(table(one))
    assert found.worst.preset.number == 3
