from tests.rules.looking import found
from thruline.proof.example_boards import DELAY, TO_DELAY, a_cable, a_preset, a_unit, board
from thruline.proof.rules.understanding.switch_value_in_the_middle import RULE

MOD = a_unit("mod", "fiesta-modulation", "channel = 6")


def test_a_label_is_never_in_the_middle() -> None:
    presets = (
        a_preset(n, "Cue", f'mod = {{ speed = "{word}" }}')
        for n, word in ((1, "slow"), (2, "fast"))
    )
    assert found(RULE, board(MOD, a_cable("feet.midi-out-1", "mod.midi-in"), *presets)) == []


def test_a_plain_switch_is_on_or_off() -> None:
    (finding,) = found(RULE, board(DELAY, TO_DELAY, a_preset(1, "Cue", "delay = { trails = 70 }")))
    assert finding.mends[0].says == 'Write "on"'


def test_only_switches_have_a_middle() -> None:
    assert found(RULE, board(DELAY, TO_DELAY, a_preset(1, "Cue", "delay = { mix = 70 }"))) == []


def test_a_value_that_cannot_be_read_is_not_judged() -> None:
    assert found(RULE, board(DELAY, TO_DELAY, a_preset(1, "Cue", "delay = { trails = '?' }"))) == []
