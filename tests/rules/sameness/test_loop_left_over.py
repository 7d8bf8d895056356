from tests.rules.looking import found, mended
from thruline.proof.rules.sameness.loop_left_over import RULE


def test_a_loop_is_put_out_first_of_all() -> None:
    (finding,) = found(RULE, RULE.failing)
    assert [mend.says for mend in finding.mends] == [
        'Put Russet Drive "out" in that preset',
        'Put Russet Drive "in" in that preset',
    ]
    for mend, state in zip(finding.mends, (False, True), strict=True):
        calm = mended(RULE.failing, mend).opened.rig.presets[1]
        assert [goal.in_loop for goal in calm.goals] == [state]
