from tests.rules.looking import found, mended
from thruline.proof.example_boards import DELAY, a_cable, board
from thruline.proof.rules.document.plug_does_not_fit import RULE


def test_the_mend_gives_the_cable_the_plugs_of_its_sockets() -> None:
    example = board(DELAY, a_cable("feet.midi-out-1", "delay.midi-in", ends="din5/trs-3.5"))
    (finding,) = found(RULE, example)
    (cable,) = mended(example, finding.mends[0]).opened.rig.cables
    assert cable.plugs == ("din5", "din5")


def test_no_mend_where_the_wiring_does_not_go_with_those_plugs() -> None:
    lead = a_cable("feet.midi-out-1", "delay.midi-in", 'wiring = "type-a"', ends="trs-3.5/din5")
    (finding,) = found(RULE, board(DELAY, lead))
    assert finding.mends == ()
