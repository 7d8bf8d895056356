"""The nearest value that a control can have."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.base.address import at
from thruline.proof.value_mends import nearest_value, nearest_zone
from thruline.rig.values import Control, NotUnderstood, Scale, Zone, read_value

DECAY = Control(
    id="decay", name="Decay", number=12, scale=Scale(unit="s", low=0.3, high=20, decimals=1)
)
TIME = Control(id="time", name="Time", number=14, scale=Scale(unit="ms", low=20, high=1000))
DEPTH = Control(id="depth", name="Depth", number=13, high=100)
WHERE = at("preset", 1)


@pytest.mark.parametrize(
    ("control", "written", "offered"),
    [
        (DECAY, "25.0 s", "20 s"),
        (DECAY, "3100 ms", "3.1 s"),
        (DECAY, 3.1, "3.1 s"),
        (DECAY, "3.1", "3.1 s"),
        (TIME, "0.35 s", "350 ms"),
        (TIME, "0,35 S", "350 ms"),
        (DECAY, "0,1 s", "0.3 s"),
        (DEPTH, "140%", "100 %"),
        (DEPTH, 120, 100),
        (DEPTH, -3, 0),
    ],
)
def test_the_nearest_end(control: Control, written: str | float, offered: str | int) -> None:
    value = read_value(control, written)
    assert isinstance(value, NotUnderstood)
    (mend,) = nearest_value(control, value, WHERE)
    assert mend.edits[0].value == offered


@pytest.mark.parametrize("written", ["long", "3 dB", "3 apples", "40000 ms"])
def test_what_cannot_be_kept_is_not_guessed(written: str) -> None:
    value = read_value(DECAY, written)
    assert isinstance(value, NotUnderstood)
    assert list(nearest_value(DECAY, value, WHERE)) == []


@given(st.integers(300, 20_000))
def test_the_same_in_the_measure_of_the_control(milliseconds: int) -> None:
    value = read_value(DECAY, f"{milliseconds} ms")
    assert isinstance(value, NotUnderstood)
    (mend,) = nearest_value(DECAY, value, WHERE)
    written = mend.edits[0].value
    assert isinstance(written, str)
    assert float(written.removesuffix(" s")) * 1000 == pytest.approx(milliseconds)


def test_between_choices_the_nearest_choice() -> None:
    zones = (Zone(label="slow", low=10, high=40), Zone(label="fast", low=80, high=100))
    speed = Control(id="speed", name="Speed", number=14, zones=zones, high=120)
    value = read_value(speed, 140)
    assert isinstance(value, NotUnderstood)
    (mend,) = nearest_value(speed, value, WHERE)
    assert mend.edits[0].value == "fast"
    assert [nearest_zone(speed, wire).label for wire in (0, 50, 70, 127)] == [
        "slow",
        "slow",
        "fast",
        "fast",
    ]
