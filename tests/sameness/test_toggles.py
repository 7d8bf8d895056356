"""Switches that any value flips, held against all short histories."""

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.sameness.boards import RECORD, board, delay_chart, look, sweep
from thruline.sameness.toggles import Toggle, toggles

FLIP, LOAD = "3: control 102 = 127", "3: program {}"


def told(presets: list[list[str]], *, stored: bool | None = False, **more: object) -> list[Toggle]:
    record = {key: value for key, value in RECORD.items() if key != "stored"}
    if stored is not None:
        record["stored"] = stored
    chart = delay_chart(control=[record], **more)
    found = look(board(presets, chart=chart))
    return list(toggles(found.rig, found.rig.presets, found.runs, strokes=found.strokes))


def numbers(presets: object) -> list[int]:
    return [preset.number for preset in presets]  # type: ignore[attr-defined]


def states(
    flips: list[int], loads: list[int | None], *, stored: bool
) -> list[set[tuple[object, int]]]:
    """What each preset can leave: a base, and whether it was flipped oddly."""
    found: list[set[tuple[object, int]]] = [set() for _ in flips]
    for history in (
        one for length in (1, 2, 3) for one in product(range(len(flips)), repeat=length)
    ):
        base: object = "power-up"
        odd = 0
        for preset in history:
            if stored and loads[preset] is not None:
                base, odd = loads[preset], 0
            odd = (odd + flips[preset]) % 2
        found[history[-1]].add((base, odd))
    return found


@given(
    st.lists(st.tuples(st.integers(0, 3), st.sampled_from([None, 1, 2])), min_size=1, max_size=4),
    st.booleans(),
)
def test_known_is_what_has_one_state_after_all_histories(
    plan: list[tuple[int, int | None]], stored: bool
) -> None:
    flips, loads = [one[0] for one in plan], [one[1] for one in plan]
    messages = [
        ([] if load is None else [LOAD.format(load)]) + [FLIP] * times for times, load in plan
    ]
    truth = states(flips, loads, stored=stored)
    found = told(messages, stored=stored)
    unknown = {number for one in found for number in numbers(one.unknown_in)}
    flipped = any(times % 2 for times in flips)
    assert unknown == {row + 1 for row, ends in enumerate(truth) if flipped and len(ends) > 1}
    for one in found:
        assert all(len(truth[number - 1]) == 1 for number in numbers(one.known_in))


def test_one_preset_that_flips_spoils_all() -> None:
    (one,) = told([[FLIP], []])
    assert (one.unit, one.control.id) == ("delay", "record")
    assert [(flips.preset.number, flips.times) for flips in one.flipped_by] == [(1, 1)]
    assert numbers(one.unknown_in) == [1, 2]


def test_twice_is_not_at_all() -> None:
    assert told([[FLIP, FLIP], []]) == []


def test_flips_before_the_program_do_not_count() -> None:
    assert told([[FLIP, LOAD.format(1)], []], stored=True) == []
    (one,) = told([[FLIP, FLIP, LOAD.format(1), FLIP], []], stored=True)
    assert [(flips.preset.number, flips.times) for flips in one.flipped_by] == [(1, 1)]


def test_a_program_that_stores_the_switch_makes_it_known() -> None:
    (one,) = told([[FLIP], [LOAD.format(1)]], stored=True)
    assert numbers(one.known_in) == [2]
    assert numbers(one.unknown_in) == [1]
    assert told([[LOAD.format(1), FLIP], [LOAD.format(1)]], stored=True) == []


def test_where_the_chart_is_silent() -> None:
    (one,) = told([[LOAD.format(1), FLIP], []], stored=None)
    assert numbers(one.untold_in) == [1, 2]
    assert one.unknown_in == ()
    assert told([[LOAD.format(1)], []], stored=None) == []


@pytest.mark.parametrize("more", [{"receive": {"program": True}}, {"settle": {"ms": 900}}])
def test_a_flip_that_may_be_obeyed(more: dict[str, object]) -> None:
    (one,) = told([[LOAD.format(1), FLIP], []], **more)
    assert numbers(one.untold_in) == [1, 2]


def test_a_sweep_flips_at_every_movement() -> None:
    found = look(board([[], []], [sweep(("delay", "record", 0, 127), presets=[1])]))
    (one,) = toggles(found.rig, found.rig.presets, found.runs, strokes=found.strokes)
    assert [moved.name for moved in one.swept_by] == ["Swell 1"]
    assert numbers(one.unknown_in) == [1, 2]


def test_momentary_switches_are_harmless() -> None:
    assert look(board([["3: control 80 = 127"]])).strokes.flips == ()
    found = look(board([["3: control 80 = 127"]]))
    assert toggles(found.rig, found.rig.presets, found.runs, strokes=found.strokes) == ()
