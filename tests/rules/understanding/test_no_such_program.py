from tests.rules.looking import found, mended
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.rules.understanding.no_such_program import RULE


def test_a_label_by_itself_can_be_mended() -> None:
    example = board(DELAY, TO_DELAY, a_preset(1, "Overture", 'delay = "2F"'))
    (finding,) = found(RULE, example)
    assert str(finding.where[0]) == "preset[1].delay.program"  # as if it were written in full
    after = mended(example, finding.mends[0])
    assert not any(one.rule == RULE.id for one in after.proof.findings)
