"""Goals to messages, and back: what is sent gives a unit exactly what was wanted."""

from dataclasses import replace
from itertools import islice

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchmarks.odd_rigs import sample_charts
from tests.opening import open_text
from tests.timing.boards import hear, listener
from thruline.compose.goals import control_items, loop_control, program_items, wanted_of
from thruline.outside.shelves import sample_shelf
from thruline.proof.example_boards import (
    DELAY,
    TO_DELAY,
    a_cable,
    a_preset,
    a_unit,
    an_audio_path,
    board,
)
from thruline.rig.programs import label_to_wire, labels
from thruline.rig.unit import takes_control, takes_program
from thruline.rig.values import ControlKind, read_value, zone_of
from thruline.timing.receive import Listener
from thruline.timing.sending import Purpose

OPEN = {
    "bramley-delay": (),
    "laxton-echo": ('settings = { control-receive = "yes" }',),
    "worcester-bass": ('settings = { omni = "OFF", system-exclusive = "OFF" }',),
    "pippin-reverb": (),
    "egremont-preamp": (),
    "fiesta-modulation": (),
    "gala-pitch": (),
    "winston-level": (),
    "ellison-loops": (),
}
EARS = {chart: listener(chart, *rows) for chart, rows in OPEN.items()}


@pytest.mark.parametrize("chart", OPEN)
def test_every_label_is_loaded_as_it_was_wanted(chart: str) -> None:
    ear = EARS[chart]
    numbering = ear.unit.chart.programs
    if numbering is None or not takes_program(ear.unit):
        return
    every = list(labels(numbering))
    for label in (*every[:3], *islice(every, 0, None, 37), *every[-3:]):
        wire = label_to_wire(numbering, label)
        assert wire is not None
        items = program_items(ear.unit, numbering, wire)
        heard = hear(ear, *(tuple(item.data) for item in items))
        assert heard.program == wire, label
        assert [item.purpose for item in items][-1] is Purpose.PROGRAM


@pytest.mark.parametrize("chart", OPEN)
@given(data=st.data())
def test_every_control_gets_the_value_that_was_wanted(chart: str, data: st.DataObject) -> None:
    ear = EARS[chart]
    assert takes_control(ear.unit)
    plain = [
        control
        for control in ear.unit.chart.controls.values()
        if control.kind not in (ControlKind.TOGGLE_ANY, ControlKind.MOMENTARY)
    ]
    control = data.draw(st.sampled_from(plain))
    value = data.draw(st.integers(control.low, control.high))
    if control.zones and zone_of(control, value) is None:
        return
    items = control_items(ear.unit, control, value)
    heard = hear(ear, *(tuple(item.data) for item in items))
    assert heard.values == {control.id: value}


def test_units_come_in_board_order_and_head_before_groups() -> None:
    rig = open_text(
        board(
            a_unit("reverb", "pippin-reverb", "channel = 4"),
            DELAY,
            a_preset(
                1, "Overture", 'delay = { mix = 9, program = "2A" }', "reverb = { program = 7 }"
            ),
        ).rig
    ).rig
    wanted = wanted_of(rig, rig.presets[0])
    assert [one.unit.id for one in wanted] == ["reverb", "delay"]
    assert [len(one.head) for one in wanted] == [1, 3]
    assert [len(one.groups) for one in wanted] == [0, 1]


def test_what_makes_no_sense_is_left_out() -> None:
    rig = open_text(
        board(
            DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "99Z", mix = 999 }')
        ).rig
    ).rig
    assert wanted_of(rig, rig.presets[0]) == ()


def test_a_loop_box_is_sent_the_state_of_its_loop() -> None:
    rig = open_text(
        board(
            a_unit("loops", "ellison-loops", "channel = 15"),
            a_unit("drive", "russet-drive"),
            an_audio_path("guitar", "loops.loop-2[drive]", "amp"),
            a_cable("feet.midi-out-1", "loops.midi-in"),
            a_preset(1, "Storm", 'drive = "in"'),
        ).rig
    ).rig
    (wanted,) = wanted_of(rig, rig.presets[0])
    assert [item.data for item in wanted.groups[0]] == [bytes((0xBE, 111, 127))]
    found = loop_control(rig, rig.presets[0].goals[0])
    assert found is not None
    assert (found[0], found[1].id, found[2]) == ("loops", "loop-2", 127)


def test_a_relay_of_the_controller_needs_no_message() -> None:
    rig = open_text(
        board(
            a_unit("drive", "russet-drive"),
            an_audio_path("guitar", "feet.loop-1[drive]", "amp"),
            a_preset(1, "Storm", 'drive = "in"'),
        ).rig
    ).rig
    assert wanted_of(rig, rig.presets[0]) == ()


def test_values_are_sent_on_the_channel_the_controller_uses() -> None:
    ear: Listener = listener("bramley-delay", "sent-on = 9")
    control = ear.unit.chart.controls["mix"]
    value = read_value(control, "50%")
    (item,) = control_items(ear.unit, control, getattr(value, "wire", 0))
    assert item.data == bytes((0xB8, 52, 64))


def test_all_sample_charts_are_known() -> None:
    assert set(OPEN) <= set(sample_shelf().ids())


LISTENING = [one.id for one in sample_charts().values() if one.listens]


@pytest.mark.parametrize("chart", LISTENING)
def test_a_unit_that_takes_everything_ends_as_it_was_sent(chart: str) -> None:
    """Every control at both ends and in the middle, whatever its settings refuse or do not say."""
    ear = replace(listener(chart), takes_program=True, takes_control=True, hears=(True,) * 16)
    for control in ear.unit.chart.controls.values():
        for value in (control.low, (control.low + control.high) // 2, control.high):
            if control.zones and zone_of(control, value) is None:
                continue
            items = control_items(ear.unit, control, value)
            heard = hear(ear, *(tuple(item.data) for item in items))
            assert all(fate.is_good for fate in heard.fates), (control.id, value)
            match control.kind:
                case ControlKind.TOGGLE_ANY:
                    assert (heard.values, heard.flips) == ({}, {control.id: 1})
                case ControlKind.MOMENTARY:
                    assert (heard.values, heard.flips) == ({}, {})
                case _:
                    assert heard.values == {control.id: value}


@pytest.mark.parametrize("chart", LISTENING)
def test_every_label_of_every_sample_chart_is_loaded(chart: str) -> None:
    ear = replace(listener(chart), takes_program=True, hears=(True,) * 16)
    numbering = ear.unit.chart.programs
    for label in labels(numbering) if numbering else ():
        wire = label_to_wire(numbering, label)
        assert wire is not None
        heard = hear(ear, *(tuple(item.data) for item in program_items(ear.unit, numbering, wire)))
        assert (heard.program, heard.old_bank) == (wire, False), label
