"""Stored presets held against their goals."""

from tests.proof.boards import case_of
from thruline.proof.example_memories import BANK, stored
from thruline.proof.memories import wrong_programs, wrong_values

GOALS = 'delay = { program = "2A", mix = 64 }'


def programs(*messages: str) -> list[tuple[str, int | None]]:
    case = case_of(stored(*messages))
    found = wrong_programs(case, case.rig.presets[0])
    return [(one.got_label, one.off_by) for one in found]


def test_the_right_program_is_not_told() -> None:
    assert programs(*BANK, "3: program 6") == []


def test_neighbours_are_off_by_one() -> None:
    assert programs(*BANK, "3: program 7") == [("2B", 1)]
    assert programs(*BANK, "3: program 5") == [("1E", -1)]


def test_another_bank_is_no_offset() -> None:
    assert programs("3: control 0 = 0", "3: control 32 = 1", "3: program 6") == [("27D", None)]


def test_no_program_at_all() -> None:
    assert programs("3: control 52 = 9") == [("no program", None)]


def test_a_bank_left_from_before_is_another_matter() -> None:
    assert programs("3: program 6") == []


def test_values_sent_otherwise_or_not_at_all() -> None:
    for last, got in (("3: control 52 = 30", 30), ("3: control 53 = 64", None)):
        case = case_of(stored(*BANK, "3: program 6", "wait 60 ms", last, goals=GOALS))
        (one,) = wrong_values(case, case.rig.presets[0])
        assert (one.control, one.wanted.wire, one.got) == ("Mix", 64, got)


def test_a_lost_value_is_told_by_another_rule() -> None:
    case = case_of(stored(*BANK, "3: program 6", "3: control 52 = 64", goals=GOALS))
    assert list(wrong_values(case, case.rig.presets[0])) == []
