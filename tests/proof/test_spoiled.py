"""What could not be read of a preset is one finding, and nothing follows from it."""

import pytest

from tests.proof.boards import case_of, proof_of
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.rule import Example
from thruline.proof.spoiled import is_spoiled

FIRST = a_preset(1, "Overture", 'delay = { program = "2A", mix = 40 }')
LAST = a_preset(3, "Finale", 'delay = { program = "2C", mix = 20 }')


def _rig(*rows: str) -> Example:
    return board(DELAY, TO_DELAY, FIRST, a_preset(2, "Interval", *rows), LAST)


def _rules(rig: Example) -> list[str]:
    return [one.rule for one in proof_of(rig).findings]


@pytest.mark.parametrize(
    ("row", "rule"),
    [
        ('delay = { program = "111A", mix = 3 }', "understanding.no-such-program"),
        ('delay = { program = "2B", mix = "9 s" }', "understanding.value-not-possible"),
        ('delay = { program = "2B", mixx = 3 }', "document.unknown-control"),
        ('dellay = { program = "2B", mix = 3 }', "document.unknown-unit"),
    ],
)
def test_one_cause_is_one_finding(row: str, rule: str) -> None:
    assert _rules(_rig(row)) == [rule]


def test_a_message_that_cannot_be_read() -> None:
    goal = 'delay = { program = "2B", mix = 3 }'
    unread = '"3: control 0 = 0", "3: control 32 = 0", "3: progam 7", "3: control 52 = 3"'
    found = _rules(_rig(goal, f"messages = [{unread}]"))
    assert "document.unreadable-message" in found
    assert not [rule for rule in found if rule.startswith("sameness.")]
    assert "understanding.program-not-as-wanted" not in found


def test_a_preset_that_leaves_something_out_is_told_as_ever() -> None:
    assert "sameness.program-left-over" in _rules(_rig())


def test_only_the_preset_that_could_not_be_read_is_spoiled() -> None:
    case = case_of(_rig('delay = { program = "2B", mix = "9 s" }'))
    first, second, _ = case.rig.presets
    assert is_spoiled(case, second, unit="delay", part="mix")
    assert not is_spoiled(case, second, unit="delay", part="program")
    assert not is_spoiled(case, first, unit="delay", part="mix")
