import pytest
from hypothesis import given
from hypothesis import strategies as st

from thruline.rig.programs import (
    BankBytes,
    Digit,
    Numbering,
    WireProgram,
    bank_in,
    label_at,
    label_to_wire,
    labels,
    place_of,
    wire_to_label,
)

LETTERS = Numbering(
    banks=Digit(count=60, first=1), slots=Digit(count=5, first="A"), bank_bytes=BankBytes.BOTH
)
FROM_ONE = Numbering(slots=Digit(count=128, first=1))
PADDED = Numbering(slots=Digit(count=99, first=1, width=2), first_wire=1,
                   special=(("BYP", WireProgram(0, 0)),))  # fmt: skip
NAMED = Numbering(names=("A", "B", "A+B", "Mute"))
FAST_FIRST = Numbering(
    banks=Digit(count=10, first="A"), slots=Digit(count=5, first=1), slot_first=True
)
SIXTEENS = Numbering(
    banks=Digit(count=8, first=1), slots=Digit(count=16, first=1, width=2), separator="-",
    per_bank=16, first_bank=4, bank_bytes=BankBytes.MSB,
)  # fmt: skip
BESIDE = Numbering(banks=Digit(count=20, first=1), slots=Digit(count=20, first=1, width=2))


@pytest.mark.parametrize(
    ("numbering", "label", "bank", "program"),
    [
        (LETTERS, "1A", 0, 0),
        (LETTERS, "11B", 0, 51),
        (LETTERS, "11b", 0, 51),
        (LETTERS, "26D", 1, 0),
        (LETTERS, "60E", 2, 43),
        (FROM_ONE, "1", 0, 0),
        (FROM_ONE, " 128 ", 0, 127),
        (PADDED, "01", 0, 1),
        (PADDED, "7", 0, 7),
        (PADDED, "byp", 0, 0),
        (NAMED, "a+b", 0, 2),
        (FAST_FIRST, "3C", 0, 12),
        (SIXTEENS, "1-01", 4, 0),
        (SIXTEENS, "8-16", 11, 15),
        (SIXTEENS, "8-3", 11, 2),
        (BESIDE, "112", 0, 11),  # bank 1, slot 12; the slot has two digits
        (BESIDE, "1112", 1, 83),
    ],
)
def test_a_label_and_its_bytes(numbering, label, bank, program):
    wire = label_to_wire(numbering, label)
    assert wire == WireProgram(bank, program)
    assert label_to_wire(numbering, wire_to_label(numbering, wire)) == wire


@pytest.mark.parametrize(
    ("numbering", "label"),
    [
        (LETTERS, "0A"), (LETTERS, "61A"), (LETTERS, "11F"), (LETTERS, "A11"), (LETTERS, ""),
        (LETTERS, "11-B"), (FROM_ONE, "0"), (FROM_ONE, "129"), (FROM_ONE, "9" * 5000),
        (FROM_ONE, "²"), (FROM_ONE, "-1"), (PADDED, "00"), (NAMED, "C"), (FAST_FIRST, "C3"),
        (FAST_FIRST, "6A"), (SIXTEENS, "101"), (SIXTEENS, "1-17"), (Numbering(), "1"),
    ],
)  # fmt: skip
def test_a_label_that_there_is_not(numbering, label):
    assert label_to_wire(numbering, label) is None


@pytest.mark.parametrize(
    ("numbering", "wire"),
    [
        (LETTERS, WireProgram(2, 44)),
        (PADDED, WireProgram(0, 100)),
        (SIXTEENS, WireProgram(3, 0)),
        (SIXTEENS, WireProgram(4, 16)),
        (NAMED, WireProgram(0, 4)),
    ],
)
def test_bytes_that_mean_nothing(numbering, wire):
    assert wire_to_label(numbering, wire) is None


def test_noughts_may_be_left_out_only_where_one_reading_is_left():
    padded = Numbering(
        banks=Digit(count=20, first=1, width=2), slots=Digit(count=20, first=1, width=2)
    )
    assert place_of(padded, "0112") == 11
    assert place_of(padded, "112") is None  # 01 12 or 11 02
    assert place_of(padded, "11") == 0  # 01 01 and nothing else


@pytest.mark.parametrize(
    "numbering", [LETTERS, FROM_ONE, PADDED, NAMED, FAST_FIRST, SIXTEENS, BESIDE]
)
def test_labels_are_all_different_and_lead_back(numbering):
    every = list(labels(numbering))
    assert len(every) == len(set(every)) == numbering.count + len(numbering.special)
    wires = [label_to_wire(numbering, label) for label in every]
    assert len(set(wires)) == len(every)
    assert [wire_to_label(numbering, wire) for wire in wires] == every


@given(st.integers(0, 299))
def test_the_running_number_of_a_label(place):
    assert place_of(LETTERS, label_at(LETTERS, place)) == place


@given(st.text(max_size=20))
def test_no_text_is_too_odd(text):
    for numbering in (LETTERS, PADDED, NAMED, SIXTEENS, BESIDE):
        wire = label_to_wire(numbering, text)
        assert wire is None or wire_to_label(numbering, wire) is not None


def test_a_digit_is_letters_or_numbers():
    assert [Digit(count=3, first="a").write(place) for place in range(3)] == ["a", "b", "c"]
    assert Digit(count=3, first="a").read("B") == 1


@pytest.mark.parametrize(
    ("reads", "coarse", "fine", "bank"),
    [
        ("none", None, None, 3), ("msb", 5, None, 5), ("msb", None, 5, None), ("lsb", None, 7, 7),
        ("lsb", 7, None, None), ("both", 2, 1, 257), ("both", 2, None, None),
    ],
)  # fmt: skip
def test_a_bank_is_known_only_when_all_of_it_is(reads, coarse, fine, bank):
    numbering = Numbering(names=("a",), first_bank=3, bank_bytes=BankBytes(reads))
    assert bank_in(numbering, coarse, fine) == bank
