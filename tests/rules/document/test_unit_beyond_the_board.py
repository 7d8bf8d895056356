"""A unit over the edge, and the way back."""

import pytest

from tests.rules.looking import found, mended
from thruline.proof.rule import Example
from thruline.proof.rules.document.unit_beyond_the_board import RULE


@pytest.mark.parametrize(("x", "y"), [(-20, 10), (390, 10), (10, -5), (10, 290), (390, 290)])
def test_the_mend_moves_it_onto_the_board(x: int, y: int) -> None:
    text = RULE.failing.rig.replace("x = 350, y = 10", f"x = {x}, y = {y}")
    (one,) = found(RULE, Example(text))
    after = mended(Example(text), one.mends[0])
    assert not [each for each in after.proof.findings if each.rule == RULE.id]


def test_a_rig_that_does_not_give_its_board() -> None:
    text = RULE.failing.rig.replace("board = { width = 400, depth = 300 }\n", "")
    assert found(RULE, Example(text)) == []
