from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.rig.values import (
    Control,
    ControlKind,
    ControlMessage,
    NotUnderstood,
    Scale,
    Value,
    Zone,
    example_for,
    half_up,
    read_value,
    shown,
    wire_at,
    zone_of,
)

MS = Scale(unit="ms", low=20, high=2000, log=True)
PLAIN = Control(id="mix", name="Mix", number=14)
TIME = Control(id="time", name="Time", number=15, scale=MS)
GAIN = Control(id="gain", name="Gain", number=16, scale=Scale(unit="", low=0, high=10, decimals=1))
LEVEL = Control(id="level", name="Level", number=7, scale=Scale(unit="dB", low=-60, high=6))
BOOST = Control(id="boost", name="Boost", number=17, kind=ControlKind.SWITCH)
RECORD = Control(id="record", name="Record", number=18, kind=ControlKind.TOGGLE_ANY)
TAP = Control(id="tap", name="Tap", number=19, kind=ControlKind.MOMENTARY)
HEADS = Control(
    id="heads", name="Heads", number=20, kind=ControlKind.STEPS,
    zones=(
        Zone(label="1", low=0, high=42),
        Zone(label="2", low=43, high=85),
        Zone(label="all", low=86, high=119),
    ),
)  # fmt: skip
SHIFT = Control(
    id="shift", name="Shift", number=21, low=40, high=88, scale=Scale(unit="st", low=-24, high=24)
)
WIDE = Control(id="wide", name="Wide", number=1, message=ControlMessage.CC14, high=16383)
EVERY = (PLAIN, TIME, GAIN, LEVEL, BOOST, RECORD, TAP, HEADS, SHIFT, WIDE)


@pytest.mark.parametrize(
    ("control", "written", "wire", "display"),
    [
        (PLAIN, 64, 64, "64"),
        (PLAIN, 64.0, 64, "64"),
        (PLAIN, "50%", 64, "64"),  # 63.5, half up
        (PLAIN, "0 %", 0, "0"),
        (WIDE, "50%", 8192, "8192"),
        (SHIFT, "50%", 64, "0 st"),
        (SHIFT, "-12 st", 52, "-12 st"),
        (TIME, "20 ms", 0, "20 ms"),
        (TIME, "2000MS", 127, "2000 ms"),
        (TIME, "200 ms", 64, "204 ms"),  # the middle of two decades
        (LEVEL, "-6 dB", 104, "-6 dB"),
        (LEVEL, "-6,5 dB", 103, "-6 dB"),
        (GAIN, "4.5", 57, "4.5"),
        (GAIN, 57, 57, "4.5"),
        (BOOST, True, 127, "on"),
        (BOOST, "off", 0, "off"),
        (BOOST, 63, 63, "off"),
        (BOOST, 64, 64, "on"),
        (HEADS, "2", 64, "2"),
        (HEADS, "ALL", 103, "all"),
        (HEADS, 1, 1, "1"),  # wire number 1 lies in the zone "1" anyway
        (HEADS, 125, 125, "125"),  # a dead part of the range
        (TAP, "press", 127, "127"),
        (RECORD, "flip", 127, "127"),
        (RECORD, 5, 5, "5"),
    ],
)
def test_a_value_in_its_three_forms(control, written, wire, display):
    value = read_value(control, written)
    assert isinstance(value, Value)
    assert (value.wire, value.shown) == (wire, display)


@pytest.mark.parametrize(
    ("control", "written", "why"),
    [
        (PLAIN, 128, "outside 0 to 127"),
        (PLAIN, -1, "outside 0 to 127"),
        (PLAIN, 63.5, "not a whole wire number"),
        (PLAIN, "64", "64 in quotes has no measure"),
        (PLAIN, "63.5", "not a whole wire number"),
        (PLAIN, "on", "for a switch, and Mix has a range"),
        (PLAIN, True, "for a switch, and Mix has a range"),
        (SHIFT, "off", "for a switch"),
        (TIME, False, "for a switch"),
        (PLAIN, "101%", "outside 0 to 100 %"),
        (PLAIN, "3 ms", "not a measure"),
        (PLAIN, "loud", "not a value of Mix"),
        (PLAIN, "press", "not a value of Mix"),
        (PLAIN, float("inf"), "not a value of Mix"),
        (PLAIN, float("nan"), "not a value of Mix"),
        (PLAIN, 10**400, "not a whole wire number"),
        (PLAIN, "9" * 400 + "%", "outside 0 to 100 %"),
        (SHIFT, 39, "outside 40 to 88"),
        (TIME, "2001 ms", "outside 20 to 2000 ms"),
        (GAIN, "11", "outside 0 to 10"),
        (RECORD, "on", "not a value of Record"),
        (HEADS, 2, "in quotes"),  # the wire number 2 lies in the zone "1"
        (HEADS, "three", "not a value of Heads"),
    ],
)
def test_what_makes_no_sense_says_why_and_gives_an_example(control, written, why):
    value = read_value(control, written)
    assert isinstance(value, NotUnderstood)
    assert why in value.why
    assert isinstance(read_value(control, value.example.strip('"')), Value)


@pytest.mark.parametrize("control", EVERY, ids=lambda control: control.id)
def test_the_example_is_understood(control):
    assert isinstance(read_value(control, example_for(control).strip('"')), Value)


@pytest.mark.parametrize("percent", range(101))
def test_every_whole_percent_survives(percent):
    value = read_value(PLAIN, f"{percent}%")
    assert isinstance(value, Value)
    assert half_up(value.wire * 100 / 127) == percent


def test_half_goes_up():
    assert [half_up(number) for number in (-1.5, -0.5, 0.5, 1.49, 1.5)] == [-1, 0, 1, 1, 2]


def test_a_zone_is_sent_in_its_middle():
    assert [zone.middle for zone in HEADS.zones] == [21, 64, 103]
    assert all(zone_of(HEADS, zone.middle) is zone for zone in HEADS.zones)
    assert zone_of(HEADS, 120) is None


scales = st.builds(
    Scale,
    unit=st.sampled_from(["", "ms", "%"]),
    low=st.integers(1, 500),
    high=st.integers(501, 20_000),
    log=st.booleans(),
    decimals=st.integers(0, 2),
)
scaled = st.builds(
    Control,
    id=st.just("x"),
    name=st.just("X"),
    number=st.just(1),
    low=st.integers(0, 50),
    high=st.sampled_from([100, 127, 16383]),
    scale=scales | scales.map(lambda one: Scale(unit=one.unit, low=one.high, high=one.low)),
)


@given(scaled, st.data())
def test_what_is_shown_can_be_written(control, data):
    """Reading what the display shows leads to a value that shows the same."""
    wire = data.draw(st.integers(control.low, control.high))
    display = shown(control, wire)
    value = read_value(control, display)
    assert isinstance(value, Value)
    assert value.shown == display


@given(scaled)
def test_a_scale_keeps_its_order_and_its_ends(control):
    scale = control.scale
    assert wire_at(control, scale, scale.low) == control.low
    assert wire_at(control, scale, scale.high) == control.high
    steps = range(control.low, control.high + 1, max(1, (control.high - control.low) // 50))
    amounts = [float(shown(control, wire).split()[0]) for wire in steps]
    assert amounts == sorted(amounts, reverse=scale.low > scale.high)


@given(st.sampled_from(EVERY), st.one_of(st.integers(), st.floats(), st.booleans(), st.text()))
def test_nothing_that_is_written_is_too_much(control, written):
    value = read_value(control, written)
    assert isinstance(value, NotUnderstood) or control.low <= value.wire <= control.high


def test_a_range_with_a_choice_called_on_can_be_on():
    named = replace(PLAIN, zones=(Zone(label="On", low=100, high=127),))
    for written in ("on", True):
        assert read_value(named, written).wire == 114
    assert isinstance(read_value(named, "off"), NotUnderstood)
