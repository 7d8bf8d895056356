from dataclasses import replace

import pytest

from tests.sameness.boards import BANKS, board, delay_chart
from thruline.rig.audio import Audio
from thruline.sameness.codes import AS_POWERED
from thruline.sameness.columns import ColumnKind, layout_of, same_columns


def test_what_is_followed() -> None:
    layout = layout_of(board([], chart=delay_chart(programs=BANKS)))
    names = [
        (column.kind.value, column.part) for column in layout.columns if column.unit == "delay"
    ]
    assert names == [
        ("program", "program"),
        ("bank", "msb"),
        ("bank", "lsb"),
        ("control", "mix"),
        ("control", "level"),
        ("control", "trails"),
        ("control", "division"),
        ("control", "time"),
    ]


def test_a_loop_is_a_column_of_the_controller() -> None:
    layout = layout_of(board([]))
    loops = [column for column in layout.columns if column.kind is ColumnKind.LOOP]
    assert [(loop.unit, loop.part) for loop in loops] == [("feet", "loop-1")]
    assert layout.columns[layout.loops["drive"]] is loops[0]


def test_a_loop_that_the_path_passes_twice_is_one_column() -> None:
    rig = board([])
    assert rig.audio is not None
    twice = replace(rig, audio=Audio((*rig.audio.stages, *rig.audio.stages)))
    layout = layout_of(twice)
    assert [column.part for column in layout.columns if column.kind is ColumnKind.LOOP] == [
        "loop-1"
    ]


def test_power_up() -> None:
    layout = layout_of(board([]))
    by_part = {column.part: column.power_up for column in layout.columns if column.unit == "delay"}
    assert by_part["level"] == 100
    assert by_part["mix"] == AS_POWERED


def test_places_of_a_unit() -> None:
    layout = layout_of(board([]))
    for unit in layout.units:
        parts = [layout.columns[place] for place in unit.columns]
        assert {part.unit for part in parts} == {unit.id}
        assert layout.columns[unit.controls["mix"]].part == "mix"
        assert set(unit.coarse) == {"trails", "division"}


def test_nothing_of_the_kind() -> None:
    with pytest.raises(KeyError):
        layout_of(board([])).find("delay", "hold")


def test_columns_are_the_same_whatever_channels_and_settings_are() -> None:
    rig = board([])
    first = next(iter(rig.units.values()))
    moved = replace(rig, units={**rig.units, first.id: replace(first, channel=9, settings={})})
    assert same_columns(rig, moved)
    fewer = {name: unit for name, unit in rig.units.items() if name != first.id}
    assert not same_columns(rig, replace(rig, units=fewer))
    other = replace(first, chart=replace(first.chart))
    assert not same_columns(rig, replace(rig, units={**rig.units, first.id: other}))
