from tests.rules.looking import found, state
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, a_preset, a_unit, board
from thruline.proof.rules.time.control_lost_while_loading import RULE


def test_a_neighbour_on_the_channel_is_told_as_such() -> None:
    other = a_unit("other", "bramley-delay", "channel = 3")
    goals = ('delay = { program = "2A", mix = 9 }', 'other = { program = "3B", mix = 8 }')
    leads = (TO_DELAY, a_cable("delay.midi-thru", "other.midi-in"))
    example = board(DELAY, other, *leads, a_preset(1, "Cue", *goals))
    assert found(RULE, example) == []
    rules = {one.rule for one in state(example).proof.findings}
    assert "understanding.two-units-on-a-channel" in rules


def test_a_unit_whose_settle_nobody_knows_cannot_be_told() -> None:
    box = a_unit("box", "nonpareil-compressor", "channel = 5")
    lead = a_cable("feet.midi-out-1", "box.midi-in", 'wiring = "type-a"', ends="din5/trs-6.35")
    goal = a_preset(1, "Cue", 'box = { program = "a", amount = 9 }')
    untold = [one for one in state(board(box, lead, goal)).proof.untold if one.rule == RULE.id]
    assert [one.lacks for one in untold] == ["settle in chart nonpareil-compressor"]
    goal = a_preset(1, "Cue", 'box = { program = "a" }')
    assert not [one for one in state(board(box, lead, goal)).proof.untold if one.rule == RULE.id]
