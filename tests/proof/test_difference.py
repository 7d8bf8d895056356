"""The same question put to two rigs."""

from tests.proof.boards import proof_of
from thruline.proof.difference import difference
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board

LONG = a_preset(1, "The long farewell at the orchard gate")
SHORT = a_preset(1, "Farewell")
WRONG = a_preset(2, "Balcony", 'delay = { program = "99Z" }')


def test_what_is_gone_and_what_stays() -> None:
    change = difference(
        proof_of(board(DELAY, TO_DELAY, LONG, WRONG)),
        proof_of(board(DELAY, TO_DELAY, SHORT, WRONG)),
    )
    assert [one.rule for one in change.gone] == ["document.name-too-long"]
    assert [one.rule for one in change.kept] == ["understanding.no-such-program"]
    assert change.new == ()
    assert change.is_better


def test_something_new_is_not_better() -> None:
    change = difference(
        proof_of(board(DELAY, TO_DELAY, LONG)), proof_of(board(DELAY, TO_DELAY, SHORT, WRONG))
    )
    assert [one.rule for one in change.new] == ["understanding.no-such-program"]
    assert not change.is_better


def test_nothing_changed_is_not_better() -> None:
    proof = proof_of(board(LONG))
    change = difference(proof, proof)
    assert (change.gone, change.new) == ((), ())
    assert not change.is_better
