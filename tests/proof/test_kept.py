"""Pieces of work that are kept give the same answers as doing the work again."""

import random

import numpy as np
import pytest

from benchmarks.made_rigs import made_rig
from benchmarks.odd_rigs import edited, odd_document
from benchmarks.proof_checks import check_edit, opened
from benchmarks.rig_edits import EDITS, edit_channel
from tests.proof.boards import case_of
from thruline.app.mend import state_of
from thruline.compose.goals import wanted_from, wanted_of
from thruline.compose.preset import job_for
from thruline.document.write import document_text
from thruline.proof import kept as kept_module
from thruline.proof.case import Case
from thruline.proof.engine import prove
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.kept import Kept
from thruline.proof.rulebook import rulebook
from thruline.timing.receive import listener_of
from thruline.timing.run import hear, hear_all
from thruline.timing.sending import Item, Purpose, Sending
from thruline.timing.travel import Travel

RIG = board(DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = { program = "2A", mix = 64 }'))
EARLIER = Item(bytes((0xC2, 4)), Purpose.PROGRAM)


def test_wishes_are_those_of_wanted_from() -> None:
    case, kept = case_of(RIG), Kept()
    unit, goal = case.rig.units["delay"], case.rig.presets[0].goals[0]
    assert kept.want(unit, goal) == wanted_from(unit, goal)
    assert kept.want(unit, goal) is kept.want(unit, goal)


def test_equal_jobs_are_one_object() -> None:
    case, kept = case_of(RIG), Kept()
    (wanted,) = wanted_of(case.rig, case.rig.presets[0])
    (again,) = wanted_of(case.rig, case.rig.presets[0])
    sender, travel = case.board.sender, Travel()
    first = kept.jobs_of(sender)(wanted, travel=travel, later=0)
    assert kept.jobs_of(sender)(again, travel=travel, later=0) is first
    assert first == job_for(wanted, sender=sender, travel=travel, later=0)


def test_what_is_heard_is_that_of_hear() -> None:
    case, kept = case_of(RIG), Kept()
    listener = listener_of(case.rig.units["delay"])
    soft, loud = (
        (
            np.array([1, 0, 960, (3 << 24) | (0xB2 << 16) | (52 << 8) | value]).tobytes(),
            Sending((EARLIER, Item(bytes((0xB2, 52, value)), Purpose.CONTROL))),
        )
        for value in (64, 65)
    )
    both = [list(each) for each in zip(soft, loud, strict=True)]
    assert kept.hear_all(listener, *both) == hear_all(listener, *both)
    assert hear_all(listener, *both) == [hear(listener, *soft), hear(listener, *loud)]
    (again,) = kept.hear_all(listener, *([one] for one in soft))
    assert again is kept.hear_all(listener, *both)[0]


def test_waits_are_remembered_by_their_key() -> None:
    kept = Kept()
    assert kept.later_for("key") is None
    kept.note_later("key", {"delay": 640})
    assert kept.later_for("key") == {"delay": 640}


def test_equal_things_have_one_number() -> None:
    kept = Kept()
    assert kept.number_of((1, 2)) == kept.number_of((1, 2))
    assert kept.number_of((1, 2)) != kept.number_of((2, 1))


def test_it_starts_anew_when_it_has_grown_large(monkeypatch: pytest.MonkeyPatch) -> None:
    kept = Kept()
    kept.note_later("a", {"x": 1})
    monkeypatch.setattr(kept_module, "MOST", 0)
    number = kept.number_of("board")
    kept.trim()
    assert kept.later_for("a") is None
    assert kept.number_of("another board") != number


@pytest.mark.parametrize("seed", range(6))
def test_starting_anew_changes_no_proof(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(kept_module, "MOST", 20)
    rng = random.Random(seed)
    document = odd_document(rng)
    state = state_of(opened(document_text(document)))
    for _ in range(6):
        document = edited(document, rng)
        state = check_edit(state, document_text(document))


@pytest.mark.parametrize("seed", range(6))
def test_whatever_is_edited_everything_is_as_in_a_new_case(seed: int) -> None:
    """Edit upon edit, some taken back; what is remembered must never show."""
    rng = random.Random(seed)
    case = Case(made_rig(seed, units=9, presets=4))
    prove(case, rulebook())
    for _ in range(6):
        good = case.rig
        edit = rng.choice([*EDITS.values(), edit_channel, edit_channel])
        for rig in (edit(good, rng), *([good] if rng.random() < 0.4 else ())):
            case, alone = Case(rig, case), Case(rig)
            assert list(case.runs()) == list(alone.runs())
            assert prove(case, rulebook()) == prove(alone, rulebook())
            for name in ("effects", "asks"):
                table, fresh = case.held.table, alone.held.table
                assert np.array_equal(getattr(table, name), getattr(fresh, name))
