"""A mend is only as good as the proof of the rig that it leaves."""

from collections.abc import Sequence

from tests.proof.boards import proof_of
from thruline.base.address import at
from thruline.base.edit import Edit, set_to
from thruline.base.errors import CannotUse
from thruline.mend.weigh import Weighed, weigh, weigh_all
from thruline.proof.engine import Proof
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.finding import Mend

LONG = a_preset(1, "The long farewell at the orchard gate")
SHORT = a_preset(1, "Farewell")
WRONG = a_preset(1, "Farewell", 'delay = { program = "99Z" }')
BEFORE = proof_of(board(DELAY, TO_DELAY, LONG))
(FINDING,) = BEFORE.findings
EDITS = (set_to(at("preset", 1).child("name"), "Farewell"),)


def weighed(after: Proof, *, is_safe: bool = True) -> Weighed:
    def again(edits: Sequence[Edit]) -> Proof:
        assert tuple(edits) == EDITS
        return after

    return weigh(BEFORE, FINDING, mend=Mend("Shorten it", EDITS, is_safe=is_safe), again=again)


def test_a_mend_that_removes_its_finding_works() -> None:
    one = weighed(proof_of(board(DELAY, TO_DELAY, SHORT)))
    assert one.works
    assert one.is_safe


def test_a_mend_that_decides_for_the_person_is_not_safe() -> None:
    one = weighed(proof_of(board(DELAY, TO_DELAY, SHORT)), is_safe=False)
    assert one.works
    assert not one.is_safe


def test_a_mend_that_causes_something_else_is_not_safe() -> None:
    one = weighed(proof_of(board(DELAY, TO_DELAY, WRONG)))
    assert one.works
    assert not one.is_safe


def test_a_mend_that_changes_nothing_does_not_work() -> None:
    assert not weighed(BEFORE).works


def test_an_edit_that_cannot_be_made_says_why() -> None:
    def again(_: Sequence[Edit]) -> Proof:
        raise CannotUse("there is no such key")

    one = weigh(BEFORE, FINDING, mend=Mend("Shorten it", EDITS), again=again)
    assert (one.effect, one.trouble, one.works) == (None, "there is no such key", False)


def test_all_mends_are_weighed_in_the_order_of_the_findings() -> None:
    after = proof_of(board(DELAY, TO_DELAY, SHORT))
    found = list(weigh_all(BEFORE, lambda _: after))
    assert [one.finding.id for one in found] == [FINDING.id]
