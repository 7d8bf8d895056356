"""The sample rigs all the way: the right ones are clean, and what is wrong is found and mended."""

import pytest

from tests.compose.meeting import unmet
from tests.samples.reading import AS_FOUND, FIRST_BOARD, ORCHARD
from tests.samples.test_as_found import MISTAKES, is_part
from thruline.app.load import open_rig
from thruline.app.mend import State, safe_steps, state_of
from thruline.app.mending import mending
from thruline.outside.shelves import sample_shelf

FOUND_BY = {
    "a control that no program resets is set in one preset only":
        {"sameness.left-over-from-power-up at unit[pre].control[boost]"},
}  # fmt: skip
"""Mistakes that are told at the unit, not where the document has them."""


def opened(file) -> State:
    text = file.read_text(encoding="utf-8")
    return state_of(open_rig(text, file=file.name, shelves=(sample_shelf(),)))


@pytest.fixture(scope="module")
def road() -> list[State]:
    """The board as found, and after every mend."""
    found = opened(AS_FOUND)
    return [found, *(step.after for step in mending(found))]


def is_at(where: str, place: str) -> bool:
    """Whether a finding stands at a place; what is wrong with a link is told at its cable."""
    return is_part(where, place) or (where.startswith("cable") and is_part(place, where))


@pytest.mark.parametrize("file", [ORCHARD, FIRST_BOARD], ids=lambda file: file.stem)
def test_a_right_rig_is_proved_clean_with_nothing_untold(file) -> None:
    proof = opened(file).proof
    assert (proof.findings, proof.untold, proof.accepted) == ((), (), ())


@pytest.mark.parametrize("mistake", MISTAKES)
def test_every_mistake_is_told_at_once_or_after_earlier_mends(mistake: str, road) -> None:
    told = [one for state in road for one in state.proof.findings]
    places = MISTAKES[mistake]
    hits = [
        one.id
        for one in told
        if one.id in FOUND_BY.get(mistake, ())
        or any(is_at(str(where), place) for where in one.where for place in places)
    ]
    assert hits


def test_nothing_is_told_that_is_no_mistake(road) -> None:
    """Apart from what follows from a mistake: clock that is cut off with the messages."""
    places = set().union(*MISTAKES.values())
    for one in {one.id: one for state in road for one in state.proof.findings}.values():
        known = one.id in set().union(*FOUND_BY.values()) or any(
            is_part(str(where), place) or is_part(place, str(where))
            for where in one.where
            for place in places
        )
        assert known or one.rule == "time.clock-not-passed-on", one.id


def test_safe_mends_alone_leave_what_a_person_must_decide(road) -> None:
    last = list(safe_steps(road[0]))[-1].after
    assert not any(mend.is_safe for one in last.proof.findings for mend in one.mends)
    assert len(last.proof.findings) < len(road[0].proof.findings)


def test_mending_ends_clean_and_every_goal_is_met(road) -> None:
    last = road[-1]
    assert (last.proof.findings, last.proof.untold) == ((), ())
    assert unmet(last.case) == []
    assert len(road) - 1 <= len(MISTAKES) + 1
