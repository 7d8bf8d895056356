"""No channel is never a pass."""

from tests.rules.looking import found, mended, state
from thruline.proof.example_boards import a_preset, a_unit, board
from thruline.proof.rule import Example
from thruline.proof.rules.understanding.channel_unknown import RULE


def test_a_free_channel_is_the_mend() -> None:
    (one,) = found(RULE, RULE.failing)
    after = mended(RULE.failing, one.mends[0])
    assert after.opened.rig.units["tone"].channel == 2


def test_a_unit_that_nobody_addresses_may_still_obey() -> None:
    rig = RULE.failing.rig.partition("[[preset]]")[0]
    proof = state(Example(rig, RULE.failing.charts)).proof
    assert proof.findings == ()
    assert [one.rule for one in proof.untold if one.rule == RULE.id] == [RULE.id]


def test_a_unit_without_midi_that_is_asked_for_a_program() -> None:
    asked = board(a_unit("drive", "russet-drive"), a_preset(1, "Overture", 'drive = "3"'))
    (one,) = found(RULE, asked)
    assert "no channel at all" in one.says
    assert one.mends == ()
