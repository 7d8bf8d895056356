"""What units make of the messages meant for them."""

import pytest

from tests.proof.boards import case_of
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.example_memories import BANK, stored
from thruline.proof.understood import (
    counted,
    message_words,
    met,
    program_again,
    sent_rows,
    some_presets,
)
from thruline.timing.fate import Fate


def test_every_message_meets_its_unit() -> None:
    case = case_of(stored(*BANK, "3: program 6", "3: control 52 = 9"))
    found = list(met(case, case.rig.presets[0]))
    assert [one.fate for one in found] == [Fate.PREPARES, Fate.PREPARES, Fate.OBEYED, Fate.LOST]
    assert {one.unit.id for one in found} == {"delay"}


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (bytes((0xC2, 23)), "channel 3: program change 23 (C2 17)"),
        (bytes((0xB2, 52, 64)), "channel 3: control 52 = 64 (B2 34 40)"),
        (bytes((0xF0, 0x7D, 0xF7)), "bytes F0 7D F7"),
    ],
)
def test_messages_in_words(data: bytes, words: str) -> None:
    assert message_words(data) == words


def test_rows_say_what_became_of_each() -> None:
    case = case_of(stored(*BANK, "3: program 6"))
    rows = sent_rows(list(met(case, case.rig.presets[0]))).rows
    assert rows[-1] == ("channel 3: program change 5 (C2 05)", "obeyed")


def test_only_a_stored_preset_is_programmed_again() -> None:
    case = case_of(stored("3: program 6"))
    (mend,) = program_again(case.rig.presets[0])
    assert mend.is_safe
    assert str(mend.edits[0].address) == "preset[1].messages"
    plain = case_of(board(DELAY, TO_DELAY, a_preset(1, "Overture")))
    assert program_again(plain.rig.presets[0]) == ()


def test_a_few_presets_by_name() -> None:
    presets = case_of(board(*(a_preset(n, f"Cue {n}") for n in range(1, 6)))).rig.presets
    assert some_presets(presets[:1]) == '1 "Cue 1"'
    assert some_presets(presets) == '1 "Cue 1", 2 "Cue 2", 3 "Cue 3" and 2 more'


def test_one_is_one_and_several_are_several() -> None:
    assert [counted(n, "preset") for n in (0, 1, 2)] == ["0 presets", "1 preset", "2 presets"]
