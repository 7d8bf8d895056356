"""What is taken from the factory is said, and written down by the mend."""

from tests.rules.looking import found, mended, state
from thruline.proof.example_boards import a_preset, a_unit, board
from thruline.proof.rules.understanding.channel_not_written import RULE


def test_the_mend_writes_the_factory_channel() -> None:
    (one,) = found(RULE, RULE.failing)
    after = mended(RULE.failing, one.mends[0])
    assert after.opened.rig.units["delay"].channel_written
    assert state(RULE.failing).opened.rig.units["delay"].channel == 1


def test_a_unit_that_nobody_addresses_needs_no_channel() -> None:
    assert found(RULE, board(a_unit("delay", "bramley-delay"), a_preset(1, "Overture"))) == []
