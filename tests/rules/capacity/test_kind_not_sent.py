from tests.rules.looking import found
from thruline.proof.example_boards import DELAY, TO_DELAY, a_preset, board
from thruline.proof.rules.capacity.kind_not_sent import RULE


def test_one_kind_is_one_finding_however_many_presets_need_it() -> None:
    presets = (a_preset(n, "Cue", 'delay = { program = "2A", time = 300 }') for n in (1, 2, 3))
    findings = found(RULE, board(DELAY, TO_DELAY, *presets, controller="quarrenden-three"))
    kinds = [str(one.where[0]) for one in findings]
    assert kinds == ["unit[feet].sends[control-14]"]
    assert all("3 presets" in one.says and "Bramley Delay needs" in one.says for one in findings)


def test_other_messages_in_a_memory_are_looked_at() -> None:
    memory = a_preset(1, "Cue", 'messages = ["bytes F0 7D 01 F7"]')
    (finding,) = found(RULE, board(DELAY, TO_DELAY, memory, controller="quarrenden-three"))
    assert "other messages, which something needs in preset" in finding.says
