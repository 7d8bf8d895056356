"""Cases of small boards, for the tests of the proof."""

from tests.opening import open_text
from thruline.proof.case import Case
from thruline.proof.engine import Proof, prove
from thruline.proof.rule import Example
from thruline.proof.rulebook import rulebook


def case_of(example: Example) -> Case:
    """The case of an example's rig."""
    return Case(open_text(example.rig, *example.charts).rig)


def proof_of(example: Example) -> Proof:
    """The whole proof of an example's rig."""
    return prove(case_of(example), rulebook())
