"""What every plan shares: edits tried on a copy."""

from tests.opening import open_text
from thruline.app.planned import tried_json, tried_words, try_edits
from thruline.base.address import read_address
from thruline.base.edit import set_to
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, a_unit, board

CLASH = board(
    DELAY,
    TO_DELAY,
    a_unit("second", "bramley-delay", "channel = 3"),
    a_cable("delay.midi-thru", "second.midi-in"),
)


def test_an_edit_is_tried_and_told():
    tried = try_edits(open_text(CLASH.rig), [set_to(read_address("unit[second].channel"), 5)])
    assert "-channel = 3\n+channel = 5" in tried.diff
    assert "understanding.two-units-on-a-channel" in {one.rule for one in tried.effect.gone}
    assert "gone, 0 new" in tried_words(tried)
    assert tried_json(tried)["edits"][0]["value"] == 5
    assert tried.before.opened.document.text != tried.after.opened.document.text


def test_an_edit_that_the_proof_does_not_mind():
    tried = try_edits(open_text(CLASH.rig), [set_to(read_address("rig.about"), "seen")])
    assert tried_words(tried) == "with it the proof finds what it found before"


def test_no_edit_changes_nothing():
    tried = try_edits(open_text(CLASH.rig), [])
    assert tried.diff == ""
    assert tried_words(tried) == "nothing has to change in the document"
