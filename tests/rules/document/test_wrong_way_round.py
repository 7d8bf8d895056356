from tests.rules.looking import found, mended
from thruline.proof.example_boards import DELAY, a_cable, a_unit, board
from thruline.proof.rules.document.wrong_way_round import RULE


def test_a_cable_written_from_its_input_is_turned() -> None:
    lead = a_cable("delay.midi-in", "feet.midi-out-1", "length = 300")
    example = board(DELAY, lead)
    (finding,) = found(RULE, example)
    after = mended(example, finding.mends[0])
    (cable,) = after.opened.rig.cables
    assert (cable.name, cable.length) == ("feet.midi-out-1>delay.midi-in", 300)
    assert not any(one.rule == RULE.id for one in after.proof.findings)


def test_special_wiring_and_ends_are_turned_too() -> None:
    reverb = a_unit("reverb", "pippin-reverb", "channel = 4")
    wiring = 'wiring = { ring = "4", tip = "5", sleeve = "2" }'
    example = board(
        reverb, a_cable("reverb.midi-in", "feet.midi-out-1", wiring, ends="trs-3.5/din5")
    )
    (finding,) = found(RULE, example)
    (cable,) = mended(example, finding.mends[0]).opened.rig.cables
    assert cable.plugs == ("din5", "trs-3.5")
    assert dict(cable.joins) == {"4": "ring", "5": "tip", "2": "sleeve"}
