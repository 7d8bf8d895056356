import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.samples.reading import charts
from thruline.papers.chart_words import (
    bank_numbers,
    carried_by,
    example_labels,
    numbers_of,
    program_bytes,
    programs_in_words,
    values_in_words,
    wire_numbers,
)
from thruline.rig.programs import Digit, Numbering, label_to_wire
from thruline.rig.values import Control, ControlKind, ControlMessage, Scale, Zone

DELAY = charts()["bramley-delay"].programs


def test_programs_in_words():
    assert programs_in_words(DELAY) == "1A to 60E, AS SET; 301 programs in banks 0-2, 127"
    assert programs_in_words(Numbering(slots=Digit(count=1, first=1))) == "1; 1 programs"
    assert programs_in_words(Numbering(names=("Wet", "Dry"))) == "Wet to Dry; 2 programs"


def test_the_first_a_middle_and_the_last_label_are_examples():
    assert example_labels(DELAY) == ("1A", "31A", "60E", "AS SET")
    assert example_labels(Numbering(names=("Wet",))) == ("Wet",)
    assert example_labels(Numbering()) == ()


def test_program_bytes():
    wire = label_to_wire(DELAY, "31A")
    assert wire is not None
    assert program_bytes(DELAY, wire, 3) == "B2 00 00  B2 20 01  C2 16"


def test_numbers_on_the_wire():
    assert wire_numbers(DELAY) == "0-127"
    assert bank_numbers(DELAY) == (0, 32)
    assert bank_numbers(Numbering()) == ()


@pytest.mark.parametrize(
    ("message", "number", "told", "numbers"),
    [
        (ControlMessage.CC, 14, "14", (14,)),
        (ControlMessage.CC14, 16, "16 and 48", (16, 48)),
        (ControlMessage.NRPN, 8 * 128 + 6, "NRPN 8 6", (99, 98, 6, 101, 100)),
        (ControlMessage.RPN, 2, "RPN 0 2", (101, 100, 6)),
    ],
)
def test_what_carries_a_control(message, number, told, numbers):
    control = Control(id="a", name="A", number=number, message=message)
    assert carried_by(control) == told
    assert numbers_of(control) == numbers


def of_kind(kind, **more):
    return values_in_words(Control(id="a", name="A", number=14, kind=kind, **more))


def test_values_in_words():
    scale = Scale(unit="ms", low=40, high=900)
    assert of_kind(ControlKind.RANGE) == "0-127"
    assert of_kind(ControlKind.RANGE, scale=scale) == "0 = 40 ms, 64 = 473 ms, 127 = 900 ms"
    assert of_kind(ControlKind.SWITCH) == "0-63 off, 64-127 on"
    assert of_kind(ControlKind.MOMENTARY) == "acts while pressed (127), nothing stays"
    assert of_kind(ControlKind.TOGGLE_ANY) == "any value flips it"


@given(st.integers(1, 20))
def test_many_choices_are_counted(count):
    zones = tuple(Zone(label=f"z{place}", low=place, high=place) for place in range(count))
    told = of_kind(ControlKind.STEPS, zones=zones).split(", ")
    left = [part for part in told if part.endswith(" more")]
    assert len(told) <= 6
    assert len(told) - len(left) + sum(int(part.split()[0]) for part in left) == count
    assert told[-1] == f"z{count - 1} {count - 1}-{count - 1}"
