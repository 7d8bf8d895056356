"""Mends tried out on the document."""

import pytest

from tests.opening import open_text
from thruline.app.mend import apply_mend, document_diff, offers, safe_steps, state_of
from thruline.base.errors import CannotUse
from thruline.mend.weigh import Weighed
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board

MESSAGES = 'messages = ["3: control 0 = 0", "3: control 32 = 0", "3: program 5"]'
STORED = a_preset(1, "Overture", "# as found", MESSAGES, 'delay = { program = "2A" }')
LONG = a_preset(2, "The long farewell at the orchard gate")
STATE = state_of(open_text(board(DELAY, TO_DELAY, STORED, LONG).rig))


def test_every_mend_is_offered_with_its_effect() -> None:
    found = list(offers(STATE))
    assert [one.finding.rule for one in found] == [
        "understanding.program-off-by-one",
        "document.name-too-long",
    ]
    assert [one.works for one in found] == [True, True]
    assert [one.is_safe for one in found] == [True, False]


def test_applying_one_changes_only_what_it_says() -> None:
    first = next(iter(offers(STATE)))
    step = apply_mend(STATE, first)
    text = step.after.opened.document.text
    assert "messages" not in text
    assert "# as found" in text
    removed = [row for row in step.diff.splitlines() if row.startswith("-") and row[1] != "-"]
    assert removed == [f"-{MESSAGES}"]
    assert not [row for row in step.diff.splitlines() if row.startswith("+") and row[1] != "+"]


def test_safe_steps_go_on_until_none_is_left() -> None:
    steps = list(safe_steps(STATE))
    assert len(steps) == 1
    left = {one.rule for one in steps[-1].after.proof.findings}
    assert left == {"document.name-too-long", "sameness.program-left-over"}


def test_a_mend_that_cannot_be_made_is_refused_in_words() -> None:
    first = next(iter(offers(STATE)))
    broken = Weighed(finding=first.finding, mend=first.mend, effect=None, trouble="no such key")
    with pytest.raises(CannotUse, match="no such key"):
        apply_mend(STATE, broken)


def test_nothing_changed_is_no_difference() -> None:
    assert document_diff(STATE.opened, STATE.opened) == ""
